/** Models that the device tests share: numbers of the size that data sheets give, no part in particular. */
import type {
  AmplifierModel,
  BjtModel,
  DiodeModel,
  ElementKind,
  ReferenceModel,
} from '../../../engine/devices/elements.ts'
import { DEVICES } from '../../../engine/devices/index.ts'

export const REFERENCE_DIODE: DiodeModel = {
  IS: 2e-14,
  N: 1.1,
  RS: 4,
  BV: 11.7,
  IBV: 5e-3,
  NBV: 1.8,
  EG: 1.11,
  XTI: 3,
  TNOM: 25,
  tc: 9e-3,
}

export const POWER_TRANSISTOR: BjtModel = {
  IS: 2.4e-13,
  BF: 190,
  NF: 1.01,
  VAF: 98,
  IKF: 1.2,
  ISE: 2e-13,
  NE: 1.4,
  BR: 12,
  NR: 1.007,
  VAR: 7.5,
  IKR: 0.15,
  ISC: 2e-11,
  NC: 1.45,
  RB: 2.1,
  RE: 0.08,
  RC: 0.01,
  XTB: 1.3,
  EG: 1.15,
  XTI: 3.2,
}

export const OP_AMP: AmplifierModel = {
  A0: 1e5,
  VOS: 2e-3,
  DVOS: 7e-6,
  TNOM: 25,
  PSRR: 1e5,
  VS0: 5,
  CMRR: 3e3,
  VC0: 0,
  DH: 1.4,
  DL: 0.02,
  RO: 300,
  ISRC: 0.03,
  ISNK: 0.018,
  IQ: 4e-4,
  IB: 3e-8,
}

export const SHUNT_REFERENCE: ReferenceModel = {
  VREF: 2.495,
  tc: -4e-5,
  TNOM: 25,
  KD: -1.4e-3,
  ZD: 0.25,
  ITEST: 10e-3,
  IKMIN: 5e-4,
  VSAT: 1.6,
  IREF: 2e-6,
}

export const TWO_TERMINAL_REFERENCE: ReferenceModel = {
  VREF: 2.5,
  tc: 5e-5,
  TNOM: 25,
  KD: 0,
  ZD: 0.3,
  ITEST: 1e-3,
  IKMIN: 2e-4,
  VSAT: 0,
  IREF: 0,
}

/** A device at one temperature, ready to be asked for its currents and derivatives at terminal voltages. */
export function deviceAt(
  kind: ElementKind,
  values: object,
  celsius: number,
): { at: (...volts: number[]) => Float64Array; derived: Float64Array } {
  const description = DEVICES[kind]
  const given = values as Record<string, number | undefined>
  const parameters = Float64Array.from(
    Object.entries(description.parameters),
    ([name, preset]) => given[name] ?? preset ?? Number.NaN,
  )
  const model = description.model
  if (model === undefined) throw new Error(`${kind} has no model`)
  const derived = new Float64Array(model.derived)
  if (kind === 'npn' || kind === 'pnp') derived[0] = kind === 'npn' ? 1 : -1
  model.prepare(parameters, 0, celsius, derived, 0)
  const n = description.terminals
  return {
    derived,
    at: (...volts) => {
      const out = new Float64Array(n * (n + 1))
      model.evaluate(derived, 0, Float64Array.from(volts), 0, out, 0)
      return out
    },
  }
}
