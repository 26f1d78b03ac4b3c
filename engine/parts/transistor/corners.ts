/** How far gain and leakage stray from nominal, from the sheet's limits. */
import type { BjtModel } from '../../devices/elements.ts'
import { dcBeta, driveAt } from './conduction.ts'
import { risingRoot } from './root.ts'
import { isDarlington, type GainPoint, type TransistorModel, type TransistorRow } from './row.ts'

/** Largest gain over least where a sheet guarantees no maximum: common practice, no source. */
export const UNLIMITED_GAIN_RATIO = 3
/** Leakage doubles every so many kelvin where a sheet prints one temperature alone: the textbooks' rule. */
export const LEAKAGE_DOUBLES_EVERY = 10

export interface GainCorners {
  /** Factors on BF (and their inverses on ISE) of each transistor of the part. */
  readonly low: number
  readonly high: number
  /** The points of the sheet that they just meet. */
  readonly atMin: GainPoint
  /** Absent where the sheet guarantees no maximum: then the corner is an assumption. */
  readonly atMax?: GainPoint
}

/** BF by k and ISE by 1/k, in both transistors of a Darlington. */
export function withGain(model: TransistorModel, k: number): TransistorModel {
  const one = (m: BjtModel): BjtModel => ({ ...m, BF: m.BF * k, ISE: (m.ISE ?? 0) / k })
  return isDarlington(model) ? { ...model, driver: one(model.driver), output: one(model.output) } : one(model)
}

/** The model at the low corner of gain, and at the high one. */
export const weakest = ofRow((row) => withGain(row.model, gainCorners(row).low))
export const strongest = ofRow((row) => withGain(row.model, gainCorners(row).high))

/** Worked out once a row. */
function ofRow<T>(make: (row: TransistorRow) => T): (row: TransistorRow) => T {
  const made = new WeakMap<TransistorRow, { readonly value: T }>()
  return (row) => {
    const known = made.get(row) ?? { value: make(row) }
    made.set(row, known)
    return known.value
  }
}

/** Guaranteed minima above this share of IC,max do not set the low corner: the usual derating keeps parts below it. */
const WORKING_SHARE = 0.75

/**
 * Low: the least k over the guaranteed minima, so that no sample that passes the sheet has less gain at any of them. Left
 * out: minima above three quarters of IC,max or at a VCE below that of the point with a maximum (quasi-saturation), unless there
 * are no others; and, of a gain group, those that hold for the whole type.
 * High: the guaranteed maximum. Without one: three times the minimum or sqrt(3) times nominal, whichever is more (a
 * typical curve far above the minimum leaves no room below three times that).
 */
export const gainCorners = ofRow((row): GainCorners => {
  const low = minimaThatCount(row)
    .map((p) => ({ k: gainFactor(row.model, p, p.min!), p }))
    .toSorted((a, b) => a.k - b.k)[0]!
  const maxima = row.points.hFE.filter((p) => p.max !== undefined)
  const high = maxima.map((p) => ({ k: gainFactor(row.model, p, p.max!), p })).toSorted((a, b) => a.k - b.k)[0]
  const guessed = () => {
    const typical = dcBeta(row.model, low.p.Ic, low.p.Vce, low.p.Tj)
    return gainFactor(
      row.model,
      low.p,
      Math.max(UNLIMITED_GAIN_RATIO * low.p.min!, Math.sqrt(UNLIMITED_GAIN_RATIO) * typical),
    )
  }
  return {
    low: low.k,
    high: high?.k ?? guessed(),
    atMin: low.p,
    ...(high && { atMax: high.p }),
  }
})

function minimaThatCount(row: TransistorRow): GainPoint[] {
  const minima = row.points.hFE.filter((p) => p.min !== undefined)
  if (row.gainGroup !== undefined) return minima.filter((p) => p.max !== undefined)
  const Vce = Math.max(...minima.filter((p) => p.max !== undefined).map((p) => p.Vce), 0)
  const working = minima.filter((p) => p.Ic <= WORKING_SHARE * row.Ic_max && p.Vce >= Vce)
  return working.length > 0 ? working : minima
}

/** The k with which the model's gain is `wanted` at a point; exact for one transistor but for the drop over RB. */
function gainFactor(model: TransistorModel, p: GainPoint, wanted: number): number {
  let k = 1
  for (let round = 0; round < 60; round += 1) {
    const ratio = wanted / dcBeta(withGain(model, k), p.Ic, p.Vce, p.Tj)
    // each transistor of a pair takes its share of the ratio
    k *= isDarlington(model) ? Math.sqrt(ratio) : ratio
    if (Math.abs(ratio - 1) < 1e-9) break
  }
  return k
}

export interface LeakageCorner {
  /** Largest collector-base leakage at `tnom`, amperes. */
  readonly max: number
  readonly tnom: number
  /** Kelvin. */
  readonly doublesEvery: number
}

/**
 * The sheet's maximum as collector-base leakage. ICES and ICEX are taken as ICBO, which is the less. ICEO is what the
 * leakage becomes through the part's own gain, base open: the leakage is found that makes it so at the lowest gain, since
 * a sample of more gain must leak less to pass. Where the sheet prints a hot limit too, the doubling follows from both.
 */
export const leakageCorner = ofRow((row): LeakageCorner => {
  const { kind, max, temperature, hot } = row.leakage
  return {
    max: kind === 'ICEO' ? leakageBehindIceo(row) : max,
    tnom: temperature,
    doublesEvery: hot ? (hot.temperature - temperature) / Math.log2(hot.max / max) : LEAKAGE_DOUBLES_EVERY,
  }
})

/** Base open, the base current is the leakage, and it and the collector current add up to what is measured. */
function leakageBehindIceo(row: TransistorRow): number {
  const { max, voltage, temperature } = row.leakage
  const model = weakest(row)
  const excess = (ic: number): number => Math.log((ic + driveAt(model, ic, voltage, temperature).ib) / max)
  return max - risingRoot(excess, 0, max, 1e-9)
}
