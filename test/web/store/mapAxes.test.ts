/** Axes for a map: ranges that the other requirements allow, and which requirements tell. Our own rule: no source. */
import { describe, expect, it } from 'vitest'
import { studyAt } from '../../../engine/explore/map.ts'
import { axisValues, MAPPED, RANGES, type Study } from '../../../engine/requirements/index.ts'
import { EXAMPLES } from '../../../web/examples/index.ts'
import { withPath } from '../../../web/store/check.ts'
import {
  axisAround,
  crossingsOf,
  holdsPresent,
  type Line,
  LOOK_CELLS,
  looks,
  nearestCrossing,
  tellingAxes,
  valueOn,
} from '../../../web/store/mapAxes.ts'

const [first] = EXAMPLES
const study = first!.study

/** `codes` of 9 cells along a requirement; scores at will. */
function line(path: (typeof MAPPED)[number], codes: readonly number[], scores: readonly number[] = []): Line {
  const axis = { ...axisAround(study, path), count: codes.length }
  const all = new Float64Array(3 * codes.length)
  all.set(scores)
  return { axis, codes: Uint8Array.from(codes), scores: all }
}

describe('an axis around what is in force', () => {
  it.each(EXAMPLES.map(({ study: each }) => [each.title, each] as const))(
    'rises, stays in range, and holds it: %s',
    (_, each) => {
      for (const path of MAPPED) {
        const axis = axisAround(each, path)
        expect(axis.to).toBeGreaterThan(axis.from)
        expect(axis.from).toBeGreaterThanOrEqual(RANGES[path].min)
        expect(axis.to).toBeLessThanOrEqual(RANGES[path].max)
        expect(holdsPresent(each, axis)).toBe(true)
      }
    },
  )

  it('begins within what the other requirements allow, to the last digit', () => {
    const awkward = withPath(withPath(study, 'load.min', 0.0012345), 'load.max', 0.002)
    expect(axisAround(awkward, 'load.max').from).toBeGreaterThanOrEqual(0.0012345)
    const tight: Study = withPath(study, 'load.min', study.requirements.load.max)
    const axis = axisAround(tight, 'load.max')
    expect(axis.from).toBeGreaterThanOrEqual(study.requirements.load.max)
  })

  it('is around one per cent where load regulation is not limited, and always holds what is not in force', () => {
    const free = withPath(study, 'limits.loadRegulation', undefined)
    const axis = axisAround(free, 'limits.loadRegulation')
    expect([axis.from, axis.to]).toEqual([0.001, 0.1])
    expect(holdsPresent(free, axis)).toBe(true)
  })
})

describe('a look', () => {
  it('goes along each requirement alone, all else as it is in force', () => {
    const asked = looks(study)
    expect(asked.map(({ x }) => x.path)).toEqual([...MAPPED])
    for (const question of asked) {
      const cells = Array.from({ length: LOOK_CELLS }, (_, k) => studyAt(question, k))
      cells.forEach((at, k) => {
        if (!at) return
        expect(valueOn(at, question.x.path)).toBe(axisValues(question.x)[k])
        for (const path of MAPPED.filter((other) => other !== question.x.path))
          expect(valueOn(at, path)).toBe(valueOn(study, path))
      })
      expect(cells.filter((at) => at !== undefined).length).toBeGreaterThan(4)
    }
  })

  it('sees where another wins, where none does, and who else begins or stops to meet', () => {
    const kinds = (codes: readonly number[]) =>
      crossingsOf(study, line('output.tolerance', codes)).map(({ kind }) => kind)
    // 5: shunt alone; 26: series-pass, feedback meets too; 18: series-pass alone; 0: none
    expect(kinds([5, 5, 5, 26, 26, 26, 26, 26, 26])).toEqual(['winner'])
    expect(kinds([5, 5, 26, 5, 5, 5, 5, 5, 5])).toEqual(['island', 'island'])
    // a single cell at the end may go on beyond it
    expect(kinds([5, 5, 5, 5, 5, 5, 5, 5, 26])).toEqual(['winner'])
    expect(kinds([0, 26, 26, 26, 18, 18, 18, 18, 18])).toEqual(['none', 'meets'])
    expect(kinds([254, 26, 26, 26, 26, 26, 26, 26, 254])).toEqual([])
  })

  it('measures from what is in force: none where the crossing encloses it', () => {
    // 3 % in force, from 0.75 % to 6 % in eight steps: between cells 3 (2.72 %) and 4
    const at = (cell: number) => {
      const codes = Array.from({ length: 9 }, (_, k) => (k <= cell ? 5 : 26))
      return nearestCrossing(study, line('output.tolerance', codes))!.distance
    }
    expect(at(3)).toBe(0)
    expect(at(4)).toBeCloseTo(0.5 - (0.03 - 0.0075) / 0.0525, 6)
    expect(at(6)).toBeGreaterThan(at(4))
  })
})

describe('the axes that tell', () => {
  const same = (path: (typeof MAPPED)[number]) =>
    line(
      path,
      Array.from({ length: 9 }, () => 26),
    )

  it('are those with the nearest boundary between designs, before any where only a design stops meeting', () => {
    const lines = [
      same('input.max'),
      line('output.voltage', [26, 26, 26, 26, 26, 18, 18, 18, 18]),
      line('load.max', [5, 26, 26, 26, 26, 26, 26, 26, 26]),
      line('ambient.max', [26, 26, 26, 26, 26, 26, 26, 0, 0]),
      line('output.tolerance', [5, 5, 5, 5, 26, 26, 26, 26, 26]),
    ]
    expect(tellingAxes(study, lines).map(({ path }) => path)).toEqual(['output.tolerance', 'load.max'])
    expect(tellingAxes(study, lines.slice(0, 4)).map(({ path }) => path)).toEqual(['load.max', 'ambient.max'])
  })

  it('without any are those that move the lead most', () => {
    const codes = Array.from({ length: 9 }, () => 26)
    const lead = (most: number) => codes.flatMap((_, k) => [0, 50 + (most * k) / 8, 50])
    const lines = [
      line('input.max', codes, lead(3)),
      line('load.max', codes, lead(30)),
      line('ambient.max', codes, lead(12)),
    ]
    expect(tellingAxes(study, lines).map(({ path }) => path)).toEqual(['load.max', 'ambient.max'])
  })
})
