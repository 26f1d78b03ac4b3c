/**
 * One transistor held at a given collector current: what sizing and the fit to the data sheet need. The equations are
 * those of `engine/devices/bjt.ts`, with RB, RE and RC outside. Voltages and currents are magnitudes: a PNP is evaluated
 * as its NPN mirror.
 */
import { BJT_DERIVED, BJT_IS, BJT_NFVT, BJT_PARAMETERS, BJT_SIGN, evaluateBjt, prepareBjt } from '../../devices/bjt.ts'
import type { BjtModel } from '../../devices/elements.ts'
import { risingRoot } from './root.ts'

/** Volts; no junction of a working transistor gets there, so a search that does has no answer. */
const MAX_VBE = 5

/** Base current in amperes and base-emitter voltage in volts at the terminals. */
export interface DriveNeeded {
  readonly ib: number
  readonly vbe: number
}

interface Junctions {
  /** IS and NF·VT at the temperature. */
  readonly IS: number
  readonly NFVT: number
  /** Collector and base current in amperes, for volts from base and collector to emitter at the inner junctions. */
  readonly at: (vbe: number, vce: number) => { ic: number; ib: number }
}

/** By model: at the temperatures asked for last; a search asks for the same one again and again. */
const PREPARED = new WeakMap<BjtModel, Map<number, Junctions>>()
const TEMPERATURES_KEPT = 8

function junctionsAt(model: BjtModel, temperature: number): Junctions {
  const kept = PREPARED.get(model) ?? new Map<number, Junctions>()
  PREPARED.set(model, kept)
  const known = kept.get(temperature)
  if (known) return known
  if (kept.size === TEMPERATURES_KEPT) kept.delete(kept.keys().next().value!)
  const made = prepareJunctions(model, temperature)
  kept.set(temperature, made)
  return made
}

function prepareJunctions(model: BjtModel, temperature: number): Junctions {
  const parameters = Float64Array.from(
    Object.entries(BJT_PARAMETERS),
    ([name, usual]) => model[name as keyof BjtModel] ?? usual!,
  )
  const derived = new Float64Array(BJT_DERIVED)
  derived[BJT_SIGN] = 1
  prepareBjt(parameters, 0, temperature, derived, 0)
  const volts = new Float64Array(3)
  const out = new Float64Array(12)
  const at = (vbe: number, vce: number) => {
    volts[0] = vce
    volts[1] = vbe
    evaluateBjt(derived, 0, volts, 0, out, 0)
    return { ic: out[0]!, ib: out[1]! }
  }
  return { IS: derived[BJT_IS]!, NFVT: derived[BJT_NFVT]!, at }
}

/**
 * Base drive of one transistor at collector current `ic` (A, > 0), `vce` (V) and junction temperature (°C).
 * NaN in both fields where `vce` is too small to carry `ic` at all (below the drop over RC and RE, for one).
 */
export function driveOf(model: BjtModel, ic: number, vce: number, temperature: number): DriveNeeded {
  const junctions = junctionsAt(model, temperature)
  const RE = model.RE ?? 0
  const RC = model.RC ?? 0
  let ib = 0
  let vbe = Number.NaN
  // the base current crosses RE too: a few rounds settle it
  for (let pass = 0; pass < 40; pass += 1) {
    const inner = vce - ic * RC - (ic + ib) * RE
    const next = innerVbe(junctions, ic, inner)
    if (Number.isNaN(next)) return { ib: Number.NaN, vbe: Number.NaN }
    const nextIb = junctions.at(next, inner).ib
    const settled = Math.abs(nextIb - ib) <= 1e-10 * nextIb
    vbe = next
    ib = nextIb
    if (settled) break
  }
  return { ib, vbe: vbe + ib * (model.RB ?? 0) + (ic + ib) * RE }
}

/**
 * The lowest inner VBE that carries `ic`. At small `vce` the
 * collector current passes a maximum, since the reverse base current outgrows the high-injection transport current: NaN
 * beyond it.
 */
function innerVbe(junctions: Junctions, ic: number, vce: number): number {
  if (vce <= 0) return Number.NaN
  const miss = (v: number): number => {
    const current = junctions.at(v, vce).ic
    return current > 0 ? Math.log(current / ic) : -Infinity
  }
  // without high injection IS would carry `ic` here; the Early effect lowers that by a few NF·VT at most
  let low = junctions.NFVT * (Math.log(ic / junctions.IS + 1) - 4)
  let high = low
  let atHigh = miss(high)
  while (atHigh < 0) {
    low = high
    high += 2 * junctions.NFVT
    const before = atHigh
    atHigh = miss(high)
    // written so that a current that is no number ends it too
    if (!(atHigh >= before && high <= MAX_VBE)) return Number.NaN
  }
  return risingRoot(miss, low, high, 1e-11)
}
