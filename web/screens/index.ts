/** The component of every screen; each but the first is loaded when it is first opened. */
import { type Component, defineAsyncComponent } from 'vue'
import CompareScreen from './compare/CompareScreen.vue'
import type { ScreenName } from './names.ts'

export const SCREEN_COMPONENTS: Record<ScreenName, Component> = {
  compare: CompareScreen,
  circuit: defineAsyncComponent(() => import('./circuit/CircuitScreen.vue')),
  parts: defineAsyncComponent(() => import('./parts/PartsScreen.vue')),
  reliability: defineAsyncComponent(() => import('./reliability/ReliabilityScreen.vue')),
  cost: defineAsyncComponent(() => import('./cost/CostScreen.vue')),
  working: defineAsyncComponent(() => import('./working/WorkingScreen.vue')),
  spread: defineAsyncComponent(() => import('./spread/SpreadScreen.vue')),
  heat: defineAsyncComponent(() => import('./heat/HeatScreen.vue')),
  decides: defineAsyncComponent(() => import('./decides/DecidesScreen.vue')),
  range: defineAsyncComponent(() => import('./range/RangeScreen.vue')),
  ratings: defineAsyncComponent(() => import('./ratings/RatingsScreen.vue')),
  faults: defineAsyncComponent(() => import('./faults/FaultsScreen.vue')),
  day: defineAsyncComponent(() => import('./day/DayScreen.vue')),
  sets: defineAsyncComponent(() => import('./sets/SetsScreen.vue')),
  brief: defineAsyncComponent(() => import('./brief/BriefScreen.vue')),
}
