/** The words and the table of faults, from faults that are invented. */
import { describe, expect, it } from 'vitest'
import { mount } from '@vue/test-utils'
import type { Fault, Faults } from '../../../engine/analyses/faults/index.ts'
import type { Corner } from '../../../engine/analyses/point.ts'
import FaultTable from '../../../web/panels/faults/FaultTable.vue'
import { faultTable } from '../../../web/panels/faults/rows.ts'
import {
  type FaultyDesign,
  faultCautions,
  faultFinding,
  fateOf,
  outputWords,
  protectionWords,
} from '../../../web/panels/faults/words.ts'
import { sampleDesign } from '../../fixtures/answers/sample.ts'

const plain = (text: string) => text.replaceAll('\u202F', ' ')
const corner = {} as Corner
const reach = (lowest: number, highest: number) => ({ lowest, highest, corners: { lowest: corner, highest: corner } })

function fault(changes: Partial<Fault>): Fault {
  return {
    fault: 'pass-shorted',
    title: 'Pass transistor shorted',
    part: 'Q1',
    removed: [],
    added: [],
    output: reach(10, 15),
    over: [],
    settles: true,
    runaways: [],
    survives: true,
    unsolved: [],
    protection: {},
    ...changes,
  }
}

const SHORT = fault({
  fault: 'output-shorted',
  title: 'Output shorted',
  output: reach(0, 1e-5),
  loadCurrent: { value: 2.57, corner },
  settles: false,
  survives: false,
  over: [
    {
      part: 'Q1',
      role: 'pass transistor',
      quantity: 'heat',
      unit: 'W',
      stress: 36.7,
      allowed: 2.41,
      factor: 15.2,
      corner,
    },
    {
      part: 'Q1',
      role: 'pass transistor',
      quantity: 'current',
      unit: 'A',
      stress: 2.57,
      allowed: 1.5,
      factor: 1.7,
      corner,
    },
  ],
})
delete (SHORT as { part?: string }).part

const faults = (list: Fault[], cautions: string[] = []): Faults => ({ band: { low: 4.85, high: 5.15 }, list, cautions })

const of = (topology: 'shunt' | 'series-pass' | 'feedback', whole: Faults | undefined): FaultyDesign => ({
  design: sampleDesign(topology, 'meets'),
  faults: whole,
})

describe('the finding', () => {
  it('names the highest voltage that a failed part puts on the load, and whom a short breaks', () => {
    const designs = [
      of('shunt', faults([fault({ fault: 'output-shorted', title: 'Output shorted', output: reach(0, 0) })])),
      of('series-pass', faults([SHORT, fault({})])),
      of('feedback', faults([SHORT, fault({ output: reach(9, 14) })])),
    ]
    delete (designs[0]!.faults!.list[0] as { part?: string }).part
    expect(plain(faultFinding(designs))).toBe(
      'A shorted pass transistor puts up to 15.0 V on the load in two of the three; a shorted output breaks series-pass and feedback.',
    )
  })

  it('says so where nothing lifts the output and the short harms none', () => {
    const harmless = fault({ output: reach(0, 5.1) })
    expect(faultFinding([of('series-pass', faults([harmless]))])).toBe(
      'No failed part lifts the output above its band; a shorted output harms none.',
    )
  })
})

describe('one fault', () => {
  it('is told by what the load sees: a range, a voltage, or a current into the short', () => {
    expect(plain(outputWords(fault({})))).toBe('10.0 to 15.0 V')
    expect(plain(outputWords(fault({ output: reach(4e-4, 9e-3) })))).toBe('0 V to 9.00 mV')
    expect(plain(outputWords(SHORT))).toBe('2.57 A into the short')
    const { output: _, ...unsolved } = fault({})
    expect(outputWords(unsolved)).toBe('not solved')
  })

  it('burns where no temperature settles, is over where a rating is, and is unknown where nothing solves', () => {
    expect(fateOf(SHORT)).toBe('burns')
    expect(fateOf(fault({ survives: false }))).toBe('over')
    expect(fateOf(fault({}))).toBe('bears')
    const { survives: _, ...unknown } = fault({})
    expect(fateOf(unknown)).toBe('unsolved')
  })

  it('says what each protection changes', () => {
    const limited = fault({
      protection: {
        fuse: 'blows',
        crowbar: { trip: 5.92, current: 1.77, fuse: 'holds', over: [] } as never,
        limiter: {
          isFitted: false,
          added: {
            sense: 2.61,
            drop: 0.4,
            current: 0.327,
            over: [],
            survives: false,
            cooling: 43.5,
            coolingNeeded: 22.3,
          },
        },
      },
    })
    const whole = { ...faults([limited]), fuse: { rating: 0.315 } as never }
    expect(protectionWords(limited, whole).map(({ what, text }) => plain(`${what}: ${text}`))).toEqual([
      'Fuse: 315 mA in the input opens',
      'Crowbar: below 5.92 V, carries 1.77 A; no fuse opens',
      'Limiter: 2.61 Ω would hold 327 mA; the pass transistor would need 22.3 K/W, it has 43.5 K/W',
    ])
  })
})

describe('the table', () => {
  const designs = [
    of('shunt', undefined),
    of('series-pass', faults([SHORT, fault({})])),
    of('feedback', faults([SHORT])),
  ]

  it('has a row a fault, a cell a design, and one scale of volts from zero', () => {
    const table = faultTable(designs)
    expect(table.rows.map(({ title }) => title)).toEqual(['Output shorted', 'Pass transistor shorted'])
    expect(table.rows[1]!.cells.map((cell) => cell?.range)).toEqual([undefined, { low: 10, high: 15 }, undefined])
    expect(table.scale).toEqual({ min: 0, max: 15 })
    expect(table.rows[0]!.cells[1]!.over.map(plain)).toEqual(['Q1 takes 36.7 W; cooled for 2.41 W'])
    expect(table.rows[1]!.cells[1]!.isOver).toBe(true)
  })

  it('shows it, and says where a design has no such part', () => {
    const text = plain(mount(FaultTable, { props: { designs } }).text())
    expect(text).toContain('10.0 to 15.0 V')
    expect(text).toContain('Burns')
    expect(text).toContain('No such part')
  })
})

it('a caution of every design is told once, without names', () => {
  const told = faultCautions([
    of('shunt', faults([], ['of all'])),
    of('series-pass', faults([], ['of one', 'of all'])),
    of('feedback', faults([], ['of all'])),
  ])
  expect(told).toEqual([
    { text: 'of one', names: ['series-pass'] },
    { text: 'of all', names: [] },
  ])
})
