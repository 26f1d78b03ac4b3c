/**
 * Terminal currents of the nonlinear elements, written out once more from the published equations and in the plainest form,
 * so that a solution can be checked by substitution. Volts in, amperes into each terminal out, junction at `celsius`.
 *
 * Transistor: Gummel and Poon, Bell Syst. Tech. J. 49 (1970), in the parameter form and with the temperature laws of
 * Massobrio and Antognetti, Semiconductor Device Modeling, ch. 2 (from memory). Diode, amplifier and shunt reference: the
 * equations published with the comparison's format.
 */
import type { Amplifier, BjtModel, DiodeModel, Element, Reference } from '../../../engine/devices/elements.ts'

/** CODATA 2014, as the library has them: at a given voltage the exact SI values move a junction's current by 6e-6. */
const BOLTZMANN = 1.38064852e-23
const CHARGE = 1.6021766208e-19
const thermalVoltage = (celsius: number): number => (BOLTZMANN * (celsius + 273.15)) / CHARGE
const absoluteRatio = (celsius: number, tnom: number): number => (celsius + 273.15) / (tnom + 273.15)

/** What a solver reports of one element, and what it knows about it. */
export interface Observed {
  readonly element: Element
  /** Volts at its nodes, in their order. */
  readonly volts: readonly number[]
  /** Amperes into its terminals, for the drops in its series resistances. */
  readonly amperes: readonly number[]
  readonly celsius: number
}

/** Amperes into each terminal by the equations alone; `undefined` for sources, which have nothing to check. */
export function textbookCurrents({ element, volts, amperes, celsius }: Observed): number[] | undefined {
  const [a = NaN, b = NaN, c = NaN, d = NaN, e = NaN] = volts
  switch (element.kind) {
    case 'resistor': {
      const i = (a - b) / (element.ohms * (1 + (element.tc1 ?? 0) * (celsius - (element.tnom ?? 25))))
      return [i, -i]
    }
    case 'diode': {
      const i = diode(element.model, a - b - element.model.RS * (amperes[0] ?? NaN), celsius)
      return [i, -i]
    }
    case 'npn':
    case 'pnp':
      return transistor(element.model, element.kind === 'npn' ? 1 : -1, [a, b, c], amperes, celsius)
    case 'amplifier':
      return amplifier(element.model, [a, b, c, d, e], celsius)
    case 'reference':
      return reference(element.model, [a, b, c], celsius)
    case 'capacitor':
      return [0, 0]
    default:
      return undefined
  }
}

/** The textbook law IS·(T/TNOM)^(XTI/N)·exp(EG/(N·VT)·(T/TNOM - 1)). */
function saturation(is: number, n: number, xti: number, eg: number, tnom: number, celsius: number): number {
  const ratio = absoluteRatio(celsius, tnom)
  return is * ratio ** (xti / n) * Math.exp(((ratio - 1) * eg) / (n * thermalVoltage(celsius)))
}

/** Anode current at the junction voltage v, series resistance already taken off. */
export function diode(m: DiodeModel, v: number, celsius: number): number {
  const vt = thermalVoltage(celsius)
  const is = saturation(m.IS, m.N, m.XTI, m.EG, m.TNOM, celsius)
  const bv = m.BV + m.tc * (celsius - m.TNOM)
  const breakdown = m.IBV * (Math.exp(-(v + bv) / (m.NBV * vt)) - Math.exp(-bv / (m.NBV * vt)))
  return is * Math.expm1(v / (m.N * vt)) - breakdown
}

/** Of a parameter whose 0 means infinite. */
const inverse = (x: number): number => (x === 0 ? 0 : 1 / x)

function transistor(
  given: BjtModel,
  sign: number,
  [c, b, e]: [number, number, number],
  [ic = NaN, ib = NaN, ie = NaN]: readonly number[],
  celsius: number,
): number[] {
  const m = { NF: 1, VAF: 0, IKF: 0, ISE: 0, NE: 1.5, BR: 1, NR: 1, VAR: 0, IKR: 0, ISC: 0, NC: 2, ...given }
  const { RB = 0, RE = 0, RC = 0, XTB = 0, EG = 1.11, XTI = 3, TNOM = 27 } = given
  const vt = thermalVoltage(celsius)
  const vbe = sign * (b - RB * ib - (e - RE * ie))
  const vbc = sign * (b - RB * ib - (c - RC * ic))
  const gain = absoluteRatio(celsius, TNOM) ** XTB
  const is = saturation(m.IS, 1, XTI, EG, TNOM, celsius)
  const ise = saturation(m.ISE, m.NE, XTI, EG, TNOM, celsius) / gain
  const isc = saturation(m.ISC, m.NC, XTI, EG, TNOM, celsius) / gain
  const forward = is * Math.expm1(vbe / (m.NF * vt))
  const reverse = is * Math.expm1(vbc / (m.NR * vt))
  const q1 = 1 / (1 - vbc * inverse(m.VAF) - vbe * inverse(m.VAR))
  const q2 = forward * inverse(m.IKF) + reverse * inverse(m.IKR)
  const qb = (q1 / 2) * (1 + Math.sqrt(1 + 4 * q2))
  const baseEmitter = forward / (m.BF * gain) + ise * Math.expm1(vbe / (m.NE * vt))
  const baseCollector = reverse / (m.BR * gain) + isc * Math.expm1(vbc / (m.NC * vt))
  const collector = (forward - reverse) / qb - baseCollector
  const base = baseEmitter + baseCollector
  return [sign * collector, sign * base, -sign * (collector + base)]
}

const sp = (u: number): number => (u + Math.sqrt(u * u + 0.01)) / 2
const ramp = (u: number): number => (u + Math.sqrt(u * u + 1e-12)) / 2

function amplifier(
  m: Amplifier['model'],
  [p, n, out, vP, vM]: [number, number, number, number, number],
  celsius: number,
) {
  const supply = vP - vM
  const x =
    p - n + m.VOS + m.DVOS * (celsius - m.TNOM) + (supply - m.VS0) / m.PSRR + ((p + n) / 2 - vM - m.VC0) / m.CMRR
  const [high, low] = [vP - m.DH, vM + m.DL]
  const swing = sp(high - low) / 2
  const i = ((high + low) / 2 + swing * Math.tanh((m.A0 * x) / swing) - out) / m.RO
  const most = i >= 0 ? m.ISRC : m.ISNK
  const io = most * Math.tanh(i / most)
  const quiescent = m.IQ * Math.tanh(supply)
  return [-m.IB, -m.IB, -io, quiescent + ramp(io) + 2 * m.IB, -(quiescent + ramp(-io))]
}

function reference(m: Reference['model'], [cathode, anode, ref]: [number, number, number], celsius: number): number[] {
  const W = 0.2e-3
  const [vka, vra] = [cathode - anode, ref - anode]
  const knee = W * Math.log(Math.exp((m.ZD * (m.ITEST - m.IKMIN)) / W) - 1)
  const vr = m.VREF + m.tc * (celsius - m.TNOM) + m.KD * (vka - m.VREF) - knee
  const y = W * Math.log(1 + Math.exp((vra - vr) / W))
  const ik = m.IKMIN * Math.tanh(vka / 0.5) + (y / m.ZD) * Math.tanh(sp(vka - m.VSAT) / 0.2)
  const iref = m.IREF * Math.tanh(vra / 0.5)
  return [ik, -(ik + iref), iref]
}
