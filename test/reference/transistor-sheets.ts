/** What a data sheet demands of a transistor model: one sentence for each point that the model misses. */
import {
  dcBeta,
  type GainPoint,
  saturationVoltage,
  type TransistorModel,
  type TransistorRow,
  vbeAt,
} from '../../engine/parts/index.ts'

/** Half-widths within which a model counts as meeting a typical value of the sheet. */
export interface Allowance {
  /** Of hFE at 25 °C, as a fraction. */
  readonly gain: number
  /** Of hFE at other temperatures, as a fraction. */
  readonly gainElsewhere: number
  /** Of VBE, volts. */
  readonly vbe: number
  /** Of the slope of VBE, V/K. */
  readonly slope: number
  /** Of VCEsat, volts, or a fifth of it where that is more. */
  readonly saturation: number
}

export interface Comparison {
  readonly what: string
  readonly sheet: number
  readonly model: number
  readonly allowed: number
}

/**
 * Whether the plotted gain has fallen faster than 1/IC since its neighbour at less current: quasi-saturation, which no
 * model of this kind has, for its gain falls as 1/IC at most. Twentieths are reading error.
 */
function isBeyondModel(p: GainPoint, points: readonly GainPoint[]): boolean {
  const below = points
    .filter((q) => q.typ !== undefined && q.Tj === p.Tj && q.Vce === p.Vce && q.Ic < p.Ic)
    .toSorted((a, b) => b.Ic - a.Ic)[0]
  return below !== undefined && p.typ! * p.Ic < 0.95 * below.typ! * below.Ic
}

/** Typical values only, points beyond the reach of the model left out. */
export function compareTypical(row: TransistorRow, model: TransistorModel, allowance: Allowance): Comparison[] {
  const { hFE, VBE, dVBEdT, VCEsat } = row.points
  const gains = hFE
    .filter((p) => p.typ !== undefined && !isBeyondModel(p, hFE))
    .map((p) => ({
      what: `hFE at ${p.Ic} A, ${p.Vce} V, ${p.Tj} °C`,
      sheet: p.typ!,
      model: dcBeta(model, p.Ic, p.Vce, p.Tj),
      allowed: p.typ! * (p.Tj === 25 ? allowance.gain : allowance.gainElsewhere),
    }))
  const voltages = VBE.filter((p) => p.typ !== undefined).map((p) => ({
    what: `VBE at ${p.Ic} A, ${p.Vce} V, ${p.Tj} °C`,
    sheet: p.typ!,
    model: vbeAt(model, p.Ic, p.Vce, p.Tj),
    allowed: allowance.vbe,
  }))
  const slopes = dVBEdT
    .filter((p) => p.Ic <= row.Ic_max / 3)
    .map((p) => ({
      what: `dVBE/dT at ${p.Ic} A`,
      sheet: p.typ,
      model: (vbeAt(model, p.Ic, 2, p.to) - vbeAt(model, p.Ic, 2, p.from)) / (p.to - p.from),
      allowed: allowance.slope,
    }))
  const saturations = VCEsat.filter((p) => p.typ !== undefined).map((p) => ({
    what: `VCEsat at ${p.Ic} A and ${p.Ib} A of base current`,
    sheet: p.typ!,
    model: saturationVoltage(model, p.Ic, p.Ib, 25),
    allowed: Math.max(allowance.saturation, 0.2 * p.typ!),
  }))
  return [...gains, ...voltages, ...slopes, ...saturations]
}

/** Points further off than allowed; NaN counts as off. */
export function misses(compared: readonly Comparison[]): string[] {
  return compared
    .filter((c) => !(Math.abs(c.model - c.sheet) <= c.allowed))
    .map((c) => `${c.what}: ${c.model}, the sheet has ${c.sheet} (allowed ±${c.allowed})`)
}

/** Guaranteed limits that a nominal sample breaks. */
export function brokenLimits(row: TransistorRow, model: TransistorModel): string[] {
  const found: string[] = []
  const check = (what: string, value: number, min = -Infinity, max = Infinity): void => {
    if (!(value >= min && value <= max)) found.push(`${what}: ${value}, guaranteed ${min} to ${max}`)
  }
  for (const p of row.points.hFE) check(`hFE at ${p.Ic} A, ${p.Vce} V`, dcBeta(model, p.Ic, p.Vce, p.Tj), p.min, p.max)
  for (const p of row.points.VBE) check(`VBE at ${p.Ic} A, ${p.Vce} V`, vbeAt(model, p.Ic, p.Vce, p.Tj), p.min, p.max)
  for (const p of row.points.VCEsat)
    check(`VCEsat at ${p.Ic} A, ${p.Ib} A`, saturationVoltage(model, p.Ic, p.Ib, 25), 0, p.max)
  return found
}
