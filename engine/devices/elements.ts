/**
 * The circuit as plain data: what the solver reads, what the comparison prints, what an independent solver can rebuild.
 *
 * Units are SI; temperatures in models (`TNOM`, `tnom`) are degrees Celsius. Every element belongs to a `part`, the thing
 * that is bought: all elements of one part share its junction temperature.
 */

interface ElementOf<Kind extends string, Nodes extends readonly string[]> {
  readonly id: string
  readonly kind: Kind
  readonly nodes: Nodes
  /** The id of the part that this element belongs to. */
  readonly part: string
}

/** Nodes are [plus, minus]; the supply has the id `input`. */
export interface VoltageSource extends ElementOf<'voltage-source', readonly [string, string]> {
  readonly value: number
}

/**
 * Draws `value` amperes from its plus node to its minus node. The element with the id `load` draws
 * `value * tanh(V / 0.1 V)` instead, V being plus over minus, so that it cannot pull the output negative.
 * With `doublesEvery` the value is that at `tnom` and doubles every so many kelvin of its part's temperature.
 */
export interface CurrentSource extends ElementOf<'current-source', readonly [string, string]> {
  readonly value: number
  readonly doublesEvery?: number
  readonly tnom?: number
}

/** R(T) = ohms * (1 + tc1 * (T - tnom)); tc1 in 1/K, tnom in degrees Celsius (default 25). */
export interface Resistor extends ElementOf<'resistor', readonly [string, string]> {
  readonly ohms: number
  readonly tc1?: number
  readonly tnom?: number
}

/** Open in every DC solution. */
export interface Capacitor extends ElementOf<'capacitor', readonly [string, string]> {
  readonly farads: number
  readonly esr: number
}

/** Junction diode with breakdown; the equations are in `diode.ts`. BV moves as BV + tc * (T - TNOM), tc in V/K. */
export interface DiodeModel {
  readonly IS: number
  readonly N: number
  readonly RS: number
  readonly BV: number
  readonly IBV: number
  readonly NBV: number
  readonly EG: number
  readonly XTI: number
  readonly TNOM: number
  readonly tc: number
}

/** Nodes are [anode, cathode]. */
export interface Diode extends ElementOf<'diode', readonly [string, string]> {
  readonly model: DiodeModel
}

/** Gummel-Poon parameters by their published names; the equations and temperature laws are in `bjt.ts`. An absent one has its published default. */
export interface BjtModel {
  readonly IS: number
  readonly BF: number
  readonly NF?: number
  readonly VAF?: number
  readonly IKF?: number
  readonly ISE?: number
  readonly NE?: number
  readonly BR?: number
  readonly NR?: number
  readonly VAR?: number
  readonly IKR?: number
  readonly ISC?: number
  readonly NC?: number
  readonly RB?: number
  readonly RE?: number
  readonly RC?: number
  readonly XTB?: number
  readonly EG?: number
  readonly XTI?: number
  readonly TNOM?: number
}

/** Nodes are [collector, base, emitter]. */
export interface Bjt extends ElementOf<'npn' | 'pnp', readonly [string, string, string]> {
  readonly model: BjtModel
}

/** Amplifier macro-model; the equations are in `amplifier.ts`. */
export interface AmplifierModel {
  readonly A0: number
  readonly VOS: number
  readonly DVOS: number
  readonly TNOM: number
  readonly PSRR: number
  readonly VS0: number
  readonly CMRR: number
  readonly VC0: number
  readonly DH: number
  readonly DL: number
  readonly RO: number
  readonly ISRC: number
  readonly ISNK: number
  readonly IQ: number
  readonly IB: number
}

/** Nodes are [non-inverting, inverting, output, positive supply, negative supply]. */
export interface Amplifier extends ElementOf<'amplifier', readonly [string, string, string, string, string]> {
  readonly model: AmplifierModel
}

/** Shunt reference macro-model; the equations are in `reference.ts`. */
export interface ReferenceModel {
  readonly VREF: number
  readonly tc: number
  readonly TNOM: number
  readonly KD: number
  readonly ZD: number
  readonly ITEST: number
  readonly IKMIN: number
  readonly VSAT: number
  readonly IREF: number
}

/** Nodes are [cathode, anode, ref]; a two-terminal reference ties ref to its cathode and has KD = IREF = VSAT = 0. */
export interface Reference extends ElementOf<'reference', readonly [string, string, string]> {
  readonly model: ReferenceModel
}

export type Element = VoltageSource | CurrentSource | Resistor | Capacitor | Diode | Bjt | Amplifier | Reference

export type ElementKind = Element['kind']

export interface Netlist {
  /** The node at 0 V. */
  readonly ground: string
  readonly elements: readonly Element[]
}
