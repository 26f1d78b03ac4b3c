/** The map of where each design wins: its axes, the picture as far as it is worked out, and the cell under the cursor. */
import { computed, ref, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { MapQuestion } from '../../engine/explore/map.ts'
import type { Refinement } from '../../engine/explore/refine.ts'
import {
  axisValues,
  type MapAxis,
  type MappedPath,
  movedTo,
  RANGES,
  type Study,
} from '../../engine/requirements/index.ts'
import { Superseded } from '../engineClient.ts'
import { createEnginePool, type EnginePool } from '../pool/enginePool.ts'
import { type MapProgress, workMap } from '../pool/map.ts'
import { readPath } from './check.ts'
import { useStudyStore } from './study.ts'

export const CELL_COUNTS = [25, 50, 100] as const

export type AxisName = 'x' | 'y'

/** The range that an axis begins with: from half to twice the value in force, or as far as the other requirements let it. */
export function rangeAround(study: Study, path: MappedPath): { from: number; to: number } {
  const { input, output, load, ambient } = study.requirements
  const value = (readPath(study, path) as number | undefined) ?? 0.01
  const [low, high] = {
    'input.max': [0.9 * input.min + 0.1 * input.max, 2 * input.max - input.min],
    'input.min': [Math.max(output.voltage + 0.5, 1.5 * input.min - 0.5 * input.max), input.max],
    'output.voltage': [0.6 * value, Math.min(1.2 * value, input.min - 0.5)],
    'load.max': [Math.max(load.min, 0.25 * value), 2.5 * value],
    'ambient.max': [Math.max(ambient.min, value - 30), value + 40],
    'limits.loadRegulation': [0.2 * value, 3 * value],
    'output.tolerance': [0.25 * value, 2 * value],
  }[path] as [number, number]
  const { min, max } = RANGES[path]
  const rounded = (x: number): number => Number(Math.min(max, Math.max(min, x)).toPrecision(3))
  return { from: rounded(low), to: rounded(high) }
}

export interface MapPicture extends Refinement {
  readonly question: MapQuestion
}

export const useMapStore = defineStore('map', () => {
  const studies = useStudyStore()
  const count = ref<number>(50)
  const axis = (path: MappedPath): MapAxis => ({ path, ...rangeAround(studies.study, path), count: count.value })
  const x = shallowRef<MapAxis>(axis('load.max'))
  const y = shallowRef<MapAxis>(axis('input.max'))
  /** As far as it is worked out; never deeply reactive. */
  const picture = shallowRef<MapPicture>()
  const busy = ref(false)
  const progress = ref<MapProgress>()
  const isStopped = ref(false)
  const failure = ref<string>()
  let pool: EnginePool | undefined
  let attempt = 0

  /** What a map depends on: everything but where its own axes stand. */
  const subjectOf = ({ study, x: across, y: up }: MapQuestion): string => {
    const { requirements, weights } = movedTo(movedTo(study, across.path, across.from), up.path, up.from)
    return JSON.stringify([requirements, weights, across, up])
  }
  const question = computed<MapQuestion>(() => ({
    study: studies.study,
    x: { ...x.value, count: count.value },
    y: { ...y.value, count: count.value },
  }))
  const isStale = computed(
    () => picture.value !== undefined && subjectOf(picture.value.question) !== subjectOf(question.value),
  )

  async function run(own?: EnginePool): Promise<void> {
    const mine = ++attempt
    const isMine = () => mine === attempt
    const asked = question.value
    pool = own ?? pool ?? createEnginePool()
    busy.value = true
    isStopped.value = false
    failure.value = undefined
    progress.value = undefined
    try {
      await workMap(
        pool,
        asked,
        (told) => {
          if (isMine()) progress.value = told
        },
        (known) => {
          if (isMine()) picture.value = { ...known, question: asked }
        },
      )
    } catch (thrown) {
      if (isMine() && !(thrown instanceof Superseded))
        failure.value = thrown instanceof Error ? thrown.message : String(thrown)
    } finally {
      if (isMine()) busy.value = false
    }
  }

  /** Stops where it is; what is worked out stays. */
  function stop(): void {
    if (!busy.value) return
    attempt++
    pool?.cancel()
    busy.value = false
    isStopped.value = true
  }

  /** Another requirement on an axis, with a range around the value in force; the two axes never share one. */
  function choose(name: AxisName, path: MappedPath): void {
    const [mine, other] = name === 'x' ? [x, y] : [y, x]
    if (other.value.path === path) other.value = axis(mine.value.path)
    mine.value = axis(path)
  }

  function setEnd(name: AxisName, end: 'from' | 'to', value: number): void {
    const mine = name === 'x' ? x : y
    mine.value = { ...mine.value, [end]: value }
  }

  /** Puts a cell's two requirements in force, as one undo step; false where they contradict another one. */
  function takeOver(cell: number): boolean {
    const shown = picture.value?.question
    if (!shown) return false
    const across = axisValues(shown.x)[cell % shown.x.count]!
    const up = axisValues(shown.y)[Math.floor(cell / shown.x.count)]!
    const moved = movedTo(movedTo(studies.study, shown.x.path, across), shown.y.path, up)
    const paths = ['input.nominal', 'load.nominal', 'ambient.nominal', shown.x.path, shown.y.path]
    return studies.editAll(Object.fromEntries(paths.map((path) => [path, readPath(moved, path)])))
  }

  return { x, y, count, picture, busy, progress, isStopped, isStale, failure, run, stop, choose, setEnd, takeOver }
})
