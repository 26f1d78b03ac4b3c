/** Small circuits for checking the independent solver and ours: round figures, no catalogue part, no topology's code. */
import type {
  AmplifierModel,
  BjtModel,
  DiodeModel,
  Element,
  Netlist,
  ReferenceModel,
} from '../../../engine/devices/elements.ts'
import type { Situation } from './netlist.ts'

export interface NamedCircuit {
  readonly name: string
  readonly netlist: Netlist
  readonly situation: Situation
}

/** A 6.2 V reference diode with 8 Ω of slope at 5 mA, about 3 mV/K. */
export const REFERENCE_DIODE: DiodeModel = {
  IS: 2e-14,
  N: 1.05,
  RS: 3,
  BV: 6.2,
  IBV: 5e-3,
  NBV: 0.97,
  EG: 1.11,
  XTI: 3,
  TNOM: 25,
  tc: 3e-3,
}

/** A medium-power transistor with every parameter of the model in play. */
export const TRANSISTOR: BjtModel = {
  IS: 3e-14,
  BF: 140,
  NF: 1.01,
  VAF: 90,
  IKF: 0.6,
  ISE: 2e-14,
  NE: 1.6,
  BR: 6,
  NR: 1.02,
  VAR: 25,
  IKR: 0.2,
  ISC: 1e-12,
  NC: 1.8,
  RB: 4,
  RE: 0.06,
  RC: 0.15,
  XTB: 1.4,
  EG: 1.11,
  XTI: 3,
  TNOM: 25,
}

export const AMPLIFIER: AmplifierModel = {
  A0: 1e5,
  VOS: 2e-3,
  DVOS: 7e-6,
  TNOM: 25,
  PSRR: 3e4,
  VS0: 5,
  CMRR: 1e4,
  VC0: 0,
  DH: 1.2,
  DL: 0.01,
  RO: 60,
  ISRC: 0.04,
  ISNK: 0.02,
  IQ: 1e-3,
  IB: 45e-9,
}

export const SHUNT_REFERENCE: ReferenceModel = {
  VREF: 2.495,
  tc: 5e-5,
  TNOM: 25,
  KD: -1.4e-3,
  ZD: 0.2,
  ITEST: 10e-3,
  IKMIN: 0.4e-3,
  VSAT: 1.9,
  IREF: 2e-6,
}

const supply = (value: number): Element => ({
  id: 'input',
  kind: 'voltage-source',
  nodes: ['in', 'gnd'],
  value,
  part: 'input',
})
const load = (value: number): Element => ({
  id: 'load',
  kind: 'current-source',
  nodes: ['out', 'gnd'],
  value,
  part: 'load',
})
const resistor = (id: string, a: string, b: string, ohms: number, tc1 = 0): Element => ({
  id,
  kind: 'resistor',
  nodes: [a, b],
  ohms,
  tc1,
  part: id,
})
const situation = (input: number, current: number, ambient: number, more: Partial<Situation> = {}): Situation => ({
  condition: { input, load: current, ambient },
  ...more,
})

export const ZENER: NamedCircuit = {
  name: 'reference diode behind a resistor',
  netlist: {
    ground: 'gnd',
    elements: [
      supply(9),
      resistor('Rs', 'in', 'out', 220, 1e-4),
      { id: 'D1', kind: 'diode', nodes: ['gnd', 'out'], model: REFERENCE_DIODE, part: 'D1' },
      load(0),
    ],
  },
  situation: situation(9.4, 2e-3, 40, { junction: { D1: 63, Rs: 51 } }),
}

/** A low-voltage diode whose knee is so soft that half a volt is one decade. */
export const SOFT: NamedCircuit = {
  name: 'low-voltage reference diode with a soft knee',
  netlist: {
    ground: 'gnd',
    elements: [
      supply(7),
      resistor('Rs', 'in', 'out', 47),
      {
        id: 'D1',
        kind: 'diode',
        nodes: ['gnd', 'out'],
        model: { ...REFERENCE_DIODE, BV: 3.6, IBV: 60e-3, NBV: 8, RS: 0.4, tc: -1.5e-3 },
        part: 'D1',
      },
      load(0),
    ],
  },
  situation: situation(7, 20e-3, 25, { junction: { D1: 80 } }),
}

export const FOLLOWER: NamedCircuit = {
  name: 'emitter follower on a reference diode',
  netlist: {
    ground: 'gnd',
    elements: [
      supply(11),
      resistor('Rs', 'in', 'base', 680),
      { id: 'D1', kind: 'diode', nodes: ['gnd', 'base'], model: REFERENCE_DIODE, part: 'D1' },
      { id: 'Q1', kind: 'npn', nodes: ['in', 'base', 'out'], model: TRANSISTOR, part: 'Q1' },
      { id: 'C1', kind: 'capacitor', nodes: ['out', 'gnd'], farads: 1e-5, esr: 0.2, part: 'C1' },
      load(0),
    ],
  },
  situation: situation(11, 60e-3, 25, { junction: { D1: 37, Q1: 71 } }),
}

export const DARLINGTON: NamedCircuit = {
  name: 'Darlington with a base-emitter resistor and a leaking collector',
  netlist: {
    ground: 'gnd',
    elements: [
      supply(11),
      resistor('Rs', 'in', 'base', 1500),
      { id: 'D1', kind: 'diode', nodes: ['gnd', 'base'], model: REFERENCE_DIODE, part: 'D1' },
      { id: 'Q1', kind: 'npn', nodes: ['in', 'base', 'mid'], model: TRANSISTOR, part: 'Q1' },
      { id: 'Q2', kind: 'npn', nodes: ['in', 'mid', 'out'], model: { ...TRANSISTOR, IS: 4e-13 }, part: 'Q2' },
      { id: 'I2', kind: 'current-source', nodes: ['in', 'mid'], value: 1e-7, doublesEvery: 10, tnom: 25, part: 'Q2' },
      resistor('R2', 'mid', 'out', 1000),
      load(0),
    ],
  },
  situation: situation(11, 0.5, -10, { junction: { D1: 5, Q1: 30, Q2: 95 } }),
}

export const SATURATED: NamedCircuit = {
  name: 'PNP switch driven into saturation',
  netlist: {
    ground: 'gnd',
    elements: [
      supply(8),
      { id: 'Q1', kind: 'pnp', nodes: ['out', 'base', 'in'], model: TRANSISTOR, part: 'Q1' },
      resistor('Rb', 'base', 'gnd', 1800),
      load(0),
    ],
  },
  situation: situation(8, 40e-3, 60),
}

export const SHUNT: NamedCircuit = {
  name: 'three-terminal shunt reference with a divider',
  netlist: {
    ground: 'gnd',
    elements: [
      supply(9),
      resistor('Rs', 'in', 'out', 330),
      resistor('Ra', 'out', 'ref', 10_000),
      resistor('Rb', 'ref', 'gnd', 10_000),
      { id: 'U1', kind: 'reference', nodes: ['out', 'gnd', 'ref'], model: SHUNT_REFERENCE, part: 'U1' },
      load(0),
    ],
  },
  situation: situation(9, 3e-3, 50),
}

export const TWO_TERMINAL: NamedCircuit = {
  name: 'two-terminal shunt reference',
  netlist: {
    ground: 'gnd',
    elements: [
      supply(9),
      resistor('Rs', 'in', 'out', 4700),
      {
        id: 'U1',
        kind: 'reference',
        nodes: ['out', 'gnd', 'out'],
        model: { ...SHUNT_REFERENCE, KD: 0, IREF: 0, VSAT: 0, ITEST: 1e-3, IKMIN: 60e-6 },
        part: 'U1',
      },
      load(0),
    ],
  },
  situation: situation(9, 2e-4, 0),
}

/** A regulator with an amplifier: reference from the output, follower in the loop. */
export const REGULATOR: NamedCircuit = {
  name: 'amplifier, follower and reference in one loop',
  netlist: {
    ground: 'gnd',
    elements: [
      supply(9),
      resistor('Rr', 'out', 'vref', 2700),
      {
        id: 'U2',
        kind: 'reference',
        nodes: ['vref', 'gnd', 'vref'],
        model: { ...SHUNT_REFERENCE, KD: 0, IREF: 0, VSAT: 0, ITEST: 1e-3, IKMIN: 60e-6 },
        part: 'U2',
      },
      resistor('R1', 'out', 'fb', 10_000),
      resistor('R2', 'fb', 'gnd', 10_000),
      { id: 'U1', kind: 'amplifier', nodes: ['vref', 'fb', 'drive', 'in', 'gnd'], model: AMPLIFIER, part: 'U1' },
      resistor('Rb', 'drive', 'base', 100),
      { id: 'Q1', kind: 'npn', nodes: ['in', 'base', 'out'], model: TRANSISTOR, part: 'Q1' },
      load(0),
    ],
  },
  situation: situation(9, 80e-3, 25, {
    junction: { Q1: 66, U1: 31 },
    near: { in: 9, out: 4.99, vref: 2.495, fb: 2.495, base: 5.75, drive: 5.9 },
  }),
}

export const CIRCUITS: readonly NamedCircuit[] = [
  ZENER,
  SOFT,
  FOLLOWER,
  DARLINGTON,
  SATURATED,
  SHUNT,
  TWO_TERMINAL,
  REGULATOR,
]
