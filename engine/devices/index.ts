/** The devices by kind: what the solver compiles and what the contract tests walk through. */
import { AMPLIFIER_DERIVED, AMPLIFIER_PARAMETERS, evaluateAmplifier, prepareAmplifier } from './amplifier.ts'
import { BJT_DERIVED, BJT_PARAMETERS, evaluateBjt, prepareBjt } from './bjt.ts'
import { CURRENT_SOURCE_PARAMETERS, evaluateCurrentSource, prepareCurrentSource } from './currentSource.ts'
import { DIODE_DERIVED, DIODE_PARAMETERS, evaluateDiode, prepareDiode } from './diode.ts'
import type { ElementKind } from './elements.ts'
import { evaluateReference, prepareReference, REFERENCE_DERIVED, REFERENCE_PARAMETERS } from './reference.ts'
import { evaluateResistor, prepareResistor, RESISTOR_PARAMETERS } from './resistor.ts'

/** Parameters at one temperature in degrees Celsius: reads `p[at..]`, writes `derived[to..]`. */
export type Prepare = (p: Float64Array, at: number, celsius: number, derived: Float64Array, to: number) => void

/**
 * Terminal currents and their derivatives: reads derived values at `p[at..]` and the terminal voltages at `v[from..]`;
 * for n terminals writes n currents INTO the terminals to `out[to..]`, then n·n derivatives d(current t)/d(voltage s)
 * to out[to + n + n·t + s]. Allocates nothing.
 */
export type Evaluate = (
  p: Float64Array,
  at: number,
  v: Float64Array,
  from: number,
  out: Float64Array,
  to: number,
) => void

export interface DeviceDescription {
  /** Parameter names in their order, each with its default or `undefined` where it must be given. */
  readonly parameters: Readonly<Record<string, number | undefined>>
  readonly terminals: number
  /** Terminal and parameter of each resistance in series with it: it gets an inner node where the resistance is not 0. */
  readonly series: readonly (readonly [terminal: number, parameter: string])[]
  /** Absent where the solver treats the element itself: sources of voltage, and the capacitor, open at DC. */
  readonly model?: { readonly derived: number; readonly prepare: Prepare; readonly evaluate: Evaluate }
}

const BJT: DeviceDescription = {
  parameters: BJT_PARAMETERS,
  terminals: 3,
  series: [
    [0, 'RC'],
    [1, 'RB'],
    [2, 'RE'],
  ],
  model: { derived: BJT_DERIVED, prepare: prepareBjt, evaluate: evaluateBjt },
}

export const DEVICES: Readonly<Record<ElementKind, DeviceDescription>> = {
  'voltage-source': { parameters: { value: undefined }, terminals: 2, series: [] },
  'current-source': {
    parameters: CURRENT_SOURCE_PARAMETERS,
    terminals: 2,
    series: [],
    model: { derived: 1, prepare: prepareCurrentSource, evaluate: evaluateCurrentSource },
  },
  resistor: {
    parameters: RESISTOR_PARAMETERS,
    terminals: 2,
    series: [],
    model: { derived: 1, prepare: prepareResistor, evaluate: evaluateResistor },
  },
  capacitor: { parameters: { farads: undefined, esr: undefined }, terminals: 2, series: [] },
  diode: {
    parameters: DIODE_PARAMETERS,
    terminals: 2,
    series: [[0, 'RS']],
    model: { derived: DIODE_DERIVED, prepare: prepareDiode, evaluate: evaluateDiode },
  },
  npn: BJT,
  pnp: BJT,
  amplifier: {
    parameters: AMPLIFIER_PARAMETERS,
    terminals: 5,
    series: [],
    model: { derived: AMPLIFIER_DERIVED, prepare: prepareAmplifier, evaluate: evaluateAmplifier },
  },
  reference: {
    parameters: REFERENCE_PARAMETERS,
    terminals: 3,
    series: [],
    model: { derived: REFERENCE_DERIVED, prepare: prepareReference, evaluate: evaluateReference },
  },
}

export type * from './elements.ts'
