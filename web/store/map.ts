/** The map of where each design wins: its axes, whose choice they are, and the picture as far as it is worked out. */
import { computed, ref, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { MapQuestion } from '../../engine/explore/map.ts'
import type { Refinement } from '../../engine/explore/refine.ts'
import { axisValues, type MappedPath, movedTo, type Spacing } from '../../engine/requirements/index.ts'
import type { EnginePool } from '../pool/enginePool.ts'
import { workLines, workMap } from '../pool/map.ts'
import { readPath } from './check.ts'
import { longRun, type Turn } from './longRun.ts'
import { axisAround, type AxisRange, holdsPresent, type Line, looks, tellingAxes } from './mapAxes.ts'
import { useStudyStore } from './study.ts'

export const CELL_COUNTS = [25, 50, 100] as const

export type AxisName = 'x' | 'y'

export interface MapPicture extends Refinement {
  readonly question: MapQuestion
}

/** What was seen along each requirement alone. */
export interface Look {
  /** Requirements and weights that it holds for. */
  readonly subject: string
  readonly lines: readonly Line[]
}

export const useMapStore = defineStore('map', () => {
  const studies = useStudyStore()
  const { busy, progress, failure, isStopped, run: start, stop, use } = longRun()
  const count = ref<number>(50)
  const x = shallowRef<AxisRange>(axisAround(studies.study, 'load.max'))
  const y = shallowRef<AxisRange>(axisAround(studies.study, 'input.max'))
  /** Axes set by hand are never chosen for the person again, unless asked. */
  const isByHand = ref(false)
  /** As far as it is worked out; never deeply reactive. */
  const picture = shallowRef<MapPicture>()
  const look = shallowRef<Look>()
  const isLooking = ref(false)

  /** What a map depends on: everything but where its own axes stand. Both ends: each holds nominal values to itself. */
  const subjectOf = ({ study, x: across, y: up }: MapQuestion): string => {
    const ends = (['from', 'to'] as const).map(
      (end) => movedTo(movedTo(study, across.path, across[end]), up.path, up[end]).requirements,
    )
    const { weights, assumptions, pins } = study
    return JSON.stringify([ends, weights, assumptions, pins, across, up])
  }
  const question = computed<MapQuestion>(() => ({
    study: studies.study,
    x: { ...x.value, count: count.value },
    y: { ...y.value, count: count.value },
  }))
  const isStale = computed(
    () => picture.value !== undefined && subjectOf(picture.value.question) !== subjectOf(question.value),
  )
  const lookSubject = computed(() => {
    const { requirements, weights, assumptions, pins } = studies.study
    return JSON.stringify([requirements, weights, assumptions, pins])
  })
  /** The last look, while it holds for what is in force. */
  const lines = computed(() => (look.value?.subject === lookSubject.value ? look.value.lines : undefined))
  /** Axes on which the requirements in force do not lie. */
  const outside = computed(() =>
    (['x', 'y'] as const).filter((name) => !holdsPresent(studies.study, name === 'x' ? x.value : y.value)),
  )

  async function draw({ pool, isMine, tell }: Turn): Promise<void> {
    const asked = question.value
    await workMap(pool, asked, tell, (known) => {
      if (isMine()) picture.value = { ...known, question: asked }
    })
  }

  /** Looks along each requirement and puts the two that tell most on the axes. */
  async function lookAlong({ pool, isMine, tell }: Turn): Promise<void> {
    const subject = lookSubject.value
    const { study } = studies
    isLooking.value = true
    try {
      const seen = await workLines(pool, looks(study), tell)
      if (!isMine()) return
      look.value = { subject, lines: seen }
      ;[x.value, y.value] = tellingAxes(study, seen)
      isByHand.value = false
    } finally {
      if (isMine()) isLooking.value = false
    }
  }

  const run = (): Promise<void> => {
    isLooking.value = false
    return start(draw)
  }

  /** The person asks for axes that show a boundary; the map follows. */
  const chooseAxes = (): Promise<void> =>
    start(async (turn) => {
      await lookAlong(turn)
      if (turn.isMine()) await draw(turn)
    })

  /** Works the map out as it is wanted now: on axes that show something, where nobody has chosen any that do. */
  function again(): Promise<void> {
    const isFirst = picture.value === undefined && look.value === undefined
    return !isByHand.value && (isFirst || outside.value.length > 0) ? chooseAxes() : run()
  }

  /** Called by the screen. A map that is there stays until it is asked for anew. */
  function open(): void {
    if (!busy.value && (!picture.value || (isStale.value && outside.value.length > 0 && !isByHand.value))) void again()
  }

  function put(name: AxisName, axis: AxisRange): void {
    ;(name === 'x' ? x : y).value = axis
    isByHand.value = true
  }

  /** Another requirement on an axis, with a range around the value in force; the two axes never share one. */
  function choose(name: AxisName, path: MappedPath): void {
    const [mine, other] = name === 'x' ? [x, y] : [y, x]
    if (other.value.path === path) other.value = axisAround(studies.study, mine.value.path)
    put(name, axisAround(studies.study, path))
    void run()
  }

  function setEnd(name: AxisName, end: 'from' | 'to', value: number): void {
    put(name, { ...(name === 'x' ? x : y).value, [end]: value })
    void run()
  }

  /** By ratio only where both ends lie above zero. */
  function setSpacing(name: AxisName, spacing: Spacing): void {
    put(name, { ...(name === 'x' ? x : y).value, spacing })
    void run()
  }

  function setCount(cells: number): void {
    count.value = cells
    void run()
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

  return {
    x,
    y,
    count,
    isByHand,
    picture,
    lines,
    outside,
    busy,
    isLooking,
    progress,
    isStopped,
    isStale,
    failure,
    setPool: (own: EnginePool) => use(own),
    open,
    run,
    again,
    stop,
    chooseAxes,
    choose,
    setEnd,
    setSpacing,
    setCount,
    takeOver,
  }
})
