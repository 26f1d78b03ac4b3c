/** Resistor and reference diode: the diode takes whatever current the load leaves. */
import type { DiodeRow } from '../../parts/reference-diode/index.ts'
import { assemble } from '../assemble.ts'
import { OUTPUT_CAPACITOR, REQUIRED, STEP_GIVEN, STEP_TIME, requiredGivens } from '../common.ts'
import type { Candidate, Need, Variant } from '../define.ts'
import { fitOutputCapacitor } from '../place/capacitor.ts'
import {
  DIODE_GIVENS,
  diodeAllowance,
  diodeGivens,
  diodeMiss,
  diodeSpread,
  diodesNear,
  fitDiode,
  leastDiodeCurrent,
} from '../place/diode.ts'
import { refuse } from '../place/fitted.ts'
import { defineWorking } from '../working.ts'
import { SERIES_RESISTOR, fitSeriesResistor } from './steps.ts'

const working = defineWorking(
  'shunt, plain diode',
  [...REQUIRED, ...DIODE_GIVENS, STEP_GIVEN],
  [
    ...SERIES_RESISTOR,
    {
      is: 'Vout_nom',
      unit: 'V',
      quantity: 'Output at nominal input and load, by hand',
      from: 'Vz + rz * ((Vin_nom - Vz) / Rs - Iout_nom - I_ZT)',
      source: 'A. S. Sedra and K. C. Smith, Microelectronic Circuits, Example 3.8 (Vz = Vz0 + rz·Iz)',
    },
    ...OUTPUT_CAPACITOR,
  ],
)

/** How far from the wanted output a diode's nominal voltage may lie and still be tried, beyond the band itself. */
const REACH = 0.06

function candidates(need: Need): Candidate[] {
  const { output } = need.requirements
  const rows = diodesNear(need, 'D1', output.voltage, output.tolerance + REACH)
  // The diode that can take the heat comes first, then the one nearest to the output.
  const worstHeat = (row: DiodeRow): number => {
    const { Iz_max } = estimate(need, row)
    return (row.vz.nominal * Iz_max) / Math.max(diodeAllowance(need, row), 1e-9)
  }
  const rank = (row: DiodeRow): number => diodeMiss(row, output.voltage) + 2 * Math.max(0, worstHeat(row) - 1)
  return rows
    .map((row) => ({ row, rank: rank(row) }))
    .toSorted((a, b) => a.rank - b.rank)
    .slice(0, 5)
    .flatMap(({ row }) => [1, 3].map((factor) => candidate(need, row, factor)))
}

function estimate(need: Need, row: DiodeRow): { Iz_max: number } {
  const { input, load } = need.requirements
  const Rs = (input.min - row.vz.max) / (load.max + leastDiodeCurrent(row))
  return { Iz_max: Rs > 0 ? (input.max - row.vz.nominal) / Rs - (load.permanent ? load.min : 0) : Infinity }
}

function candidate(need: Need, row: DiodeRow, factor: number): Candidate {
  return {
    label: `${row.partNumber}, at least ${factor === 1 ? '' : `${factor} times `}its knee current`,
    givens: () => ({
      ...requiredGivens(need.requirements),
      ...diodeGivens(need, row, factor),
      t_step: STEP_TIME,
    }),
    build(worked, demands) {
      const v = worked.value
      if (!(v('Rs_max') > 0.1))
        return refuse(
          'input.min',
          row.vz.max + (need.requirements.load.max + v('Iz_min')) * 0.1,
          need.requirements.input.min,
          'V',
          `At its highest the diode holds ${row.vz.max} V: an input of ${need.requirements.input.min} V leaves nothing to drive the load through a resistor. Raise the lowest input.`,
        )
      return assemble(need, {
        topology: 'shunt',
        variant: 'plain diode',
        worked,
        fitted: [
          fitSeriesResistor(need, worked, row.vz.min, demands),
          fitDiode(need, row, 'D1', 'reference diode across the load', ['0', 'out']),
          fitOutputCapacitor(need, worked),
        ],
        referenceSpread: diodeSpread(row),
        guess: { out: row.vz.nominal },
        assumptions: [],
        cautions: ['If the diode opens, the whole input reaches the load through the series resistor.'],
      })
    },
  }
}

export const plain: Variant = {
  name: 'plain diode',
  title: 'a resistor and a reference diode',
  working,
  suits: () => true,
  candidates,
}
