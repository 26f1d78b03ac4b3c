/** From an operational amplifier's sheet to its circuit model and what may stray from it. */
import type { AmplifierModel } from '../../devices/elements.ts'
import type { Effect, PlacedPart, Tolerance } from '../define.ts'
import type { AmplifierRow } from './row.ts'

/**
 * DH and RO from the outermost swing points of the sheet: drop = DH + RO·i, i being the current before the limiter,
 * ISRC·atanh(I/ISRC). With one point alone RO is the sheet's output resistance.
 */
function swingOf(row: AmplifierRow): { DH: number; RO: number } {
  const ISRC = row.output.source.typ
  const points = row.swingHigh.points.map(({ current, drop }) => ({ i: ISRC * Math.atanh(current / ISRC), drop }))
  const first = points[0]
  const last = points.at(-1)
  if (first === undefined || last === undefined) throw new Error(`parts/op-amp: ${row.partNumber} has no swing point`)
  const RO = points.length > 1 ? (last.drop - first.drop) / (last.i - first.i) : row.outputResistance
  return { DH: Math.max(0, first.drop - RO * first.i), RO }
}

/**
 * Nominal model: no offset, its typical drift, typical gain, rejection, bias, swing and limits. IQ is that of the whole package:
 * the amplifiers that are not used draw theirs as well.
 */
export function amplifierModel(row: AmplifierRow): AmplifierModel {
  return {
    A0: row.gain.typ,
    VOS: 0,
    DVOS: row.offset.drift,
    TNOM: 25,
    PSRR: row.supplyRejection.typ,
    VS0: row.testSupply,
    CMRR: row.commonModeRejection.typ,
    VC0: row.testCommonMode,
    ...swingOf(row),
    DL: row.swingLow.typ,
    ISRC: row.output.source.typ,
    ISNK: row.output.sink.typ,
    IQ: row.channels * row.quiescent.typ,
    IB: row.bias.typ,
  }
}

function share({ typ, min }: { readonly typ: number; readonly min: number }): number {
  return min / typ
}

/**
 * `VOS`: the full-range maximum either way. `A0`: gain and both rejections at their minimum together. `IB`: the maximum into or out
 * of the inputs. `swing`: the worst swing and drive. `IQ`: the maximum. The last two and `A0` have one bad side; the other is nominal.
 */
export function amplifierTolerances(row: AmplifierRow, part: string, element: string): Tolerance[] {
  const worse = (parameter: string, ratio: number): Effect => ({
    element,
    parameter,
    how: 'scale',
    low: 1,
    high: ratio,
  })
  const add = (parameter: string, low: number, high: number): Effect => ({ element, parameter, how: 'add', low, high })
  const tolerance = (quantity: string, label: string, effects: readonly Effect[]): Tolerance => ({
    id: `${part}.${quantity}`,
    part,
    label,
    effects,
  })
  const { bias, quiescent } = row
  return [
    tolerance('VOS', 'input offset voltage', [add('VOS', -row.offset.max, row.offset.max)]),
    tolerance('A0', 'open-loop gain and rejection', [
      worse('A0', share(row.gain)),
      worse('PSRR', share(row.supplyRejection)),
      worse('CMRR', share(row.commonModeRejection)),
    ]),
    tolerance('IB', 'input bias current', [add('IB', -bias.max - bias.typ, bias.max - bias.typ)]),
    tolerance('swing', 'output swing and drive', [
      add('DH', 0, row.swingHigh.worst),
      add('DL', 0, row.swingLow.max - row.swingLow.typ),
      worse('ISRC', share(row.output.source)),
      worse('ISNK', share(row.output.sink)),
    ]),
    tolerance('IQ', 'supply current', [add('IQ', 0, row.channels * (quiescent.max - quiescent.typ))]),
  ]
}

/** One element named as its part; nodes are [non-inverting, inverting, output, positive supply, negative supply]. */
export function placeAmplifier(
  row: AmplifierRow,
  id: string,
  nodes: readonly [plus: string, minus: string, output: string, positive: string, negative: string],
): PlacedPart {
  return {
    elements: [{ id, kind: 'amplifier', nodes, part: id, model: amplifierModel(row) }],
    tolerances: amplifierTolerances(row, id, id),
  }
}

/** Lowest and highest input voltage over the negative rail at a supply in volts; the macro-model does not stop there, so check it. */
export function commonModeRange(row: AmplifierRow, supply: number): { low: number; high: number } {
  return { low: row.inputRange.low, high: supply - row.inputRange.high }
}
