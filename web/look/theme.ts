/** The theme choice and the look's tokens as colours that a canvas understands. */
import { nextTick, readonly, ref, shallowReactive } from 'vue'
import type { Ref } from 'vue'
import { readText, writeText } from '../store/persistence.ts'

export type ThemeChoice = 'auto' | 'light' | 'dark'

const COLOUR_TOKENS = {
  page: '--page',
  sheet: '--sheet',
  sunk: '--sunk',
  ink: '--ink',
  ink2: '--ink-2',
  line: '--line',
  line2: '--line-2',
  inverse: '--inverse',
  focus: '--focus',
  select: '--select',
  load: '--load',
  heat1: '--heat-1',
  heat2: '--heat-2',
  heat3: '--heat-3',
  heatSoft: '--heat-soft',
  heatText: '--heat-text',
  shunt: '--shunt',
  series: '--series',
  feedback: '--feedback',
  m0: '--m0',
  m1: '--m1',
  m2: '--m2',
  m3: '--m3',
  m4: '--m4',
  m5: '--m5',
  band: '--band',
} as const

const FONT_TOKENS = { sans: '--sans', fig: '--fig', math: '--math' } as const

/** Resolved tokens: colours as `rgb(…)`, font lists as CSS text. */
export type Theme = Record<keyof typeof COLOUR_TOKENS | keyof typeof FONT_TOKENS, string>

const KEY = 'wattfork.theme'
const CHOICES: readonly ThemeChoice[] = ['auto', 'light', 'dark']

/**
 * A custom property keeps its `light-dark(…)` text until it lands in a real property, so each token is read back from the
 * `color` of a probe element.
 */
function resolve(): Theme {
  const root = document.documentElement
  const probe = document.createElement('span')
  probe.hidden = true
  root.append(probe)
  const style = getComputedStyle(probe)
  const theme = {} as Theme
  for (const [name, token] of Object.entries(COLOUR_TOKENS)) {
    probe.style.color = `var(${token})`
    theme[name as keyof typeof COLOUR_TOKENS] = style.color
  }
  probe.remove()
  const rootStyle = getComputedStyle(root)
  for (const [name, token] of Object.entries(FONT_TOKENS)) {
    theme[name as keyof typeof FONT_TOKENS] = rootStyle.getPropertyValue(token).trim()
  }
  return theme
}

const theme = shallowReactive<Theme>({} as Theme)
const choice = ref<ThemeChoice>('auto')
const isDark = ref(false)
let started = false

function apply(): void {
  const root = document.documentElement
  if (choice.value === 'auto') delete root.dataset['theme']
  else root.dataset['theme'] = choice.value
  isDark.value =
    choice.value === 'dark' || (choice.value === 'auto' && matchMedia('(prefers-color-scheme: dark)').matches)
  Object.assign(theme, resolve())
}

function start(): void {
  if (started) return
  started = true
  const saved = readText(KEY)
  choice.value = CHOICES.find((c) => c === saved) ?? 'auto'
  for (const query of ['(prefers-color-scheme: dark)', '(prefers-contrast: more)', 'print']) {
    matchMedia(query).addEventListener('change', apply)
  }
  apply()
}

/**
 * Does `work` while everything on the page, what is drawn by script too, has the colours of paper: light, on white. The theme is
 * put back before anything is painted, since nothing here waits longer than a microtask; so must `work`, which is synchronous.
 */
export async function onPaper<T>(work: (paper: Readonly<Theme>) => T): Promise<T> {
  start()
  const root = document.documentElement
  root.dataset['theme'] = 'light'
  root.classList.add('paper')
  Object.assign(theme, resolve())
  try {
    await nextTick()
    return work(theme)
  } finally {
    root.classList.remove('paper')
    apply()
    await nextTick()
  }
}

/** Resolved tokens, reactive: read a token inside a computed and it is rebuilt when the theme changes. */
export function useTheme(): Readonly<Theme> {
  start()
  return theme
}

/** The theme button's state: the stored choice, what is on screen now, and the step to the other one. */
export function useThemeChoice(): {
  choice: Readonly<Ref<ThemeChoice>>
  isDark: Readonly<Ref<boolean>>
  choose(next: ThemeChoice): void
} {
  start()
  return {
    choice: readonly(choice),
    isDark: readonly(isDark),
    choose(next) {
      choice.value = next
      writeText(KEY, next)
      apply()
    },
  }
}
