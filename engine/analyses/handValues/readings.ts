/** By symbol of the working: the solved value that answers to it, and what the hand calculation left out. */
import { formatQuantity } from '../../units/index.ts'
import { type Condition, type Point, thermalName } from '../point.ts'
import type { Case, Read, ReadAt } from './case.ts'
import { currentInto } from './case.ts'

type Told = Read & { readonly because: string }
type Reading = (of: Case) => Told | undefined

const volts = (value: number): string => formatQuantity(value, 'V')
const amperes = (value: number): string => formatQuantity(value, 'A')
const gain = (value: number): string => formatQuantity(value, '1')
const celsius = (value: number | undefined): string => formatQuantity(value ?? NaN, '°C')

const told = (read: Read | undefined, because: string): Told | undefined =>
  read && { solved: read.solved, condition: read.condition, thermal: read.thermal, isWorst: read.isWorst, because }

/** Read at one condition with nominal parts. */
function here(of: Case, condition: Condition, read: (point: Point) => number, because: (point: Point) => string) {
  const point = of.at(condition)
  if (!point) return undefined
  const solved = { solved: read(point), condition, thermal: 'settled', isWorst: false } as const
  return told(solved, because(point))
}

const voltage = (point: Point, plus: string, minus: string): number =>
  (point.nodeVoltages[plus] ?? 0) - (point.nodeVoltages[minus] ?? 0)

/** Base and emitter of the transistor whose junction the working calls Vbe: of a Darlington from outside. */
function junctionOf(of: Case, part: string): { base: string; emitter: string } {
  const { elements } = of.proof.design.netlist
  const own = elements.filter((e) => e.part === part && (e.kind === 'npn' || e.kind === 'pnp'))
  const driver = own.at(-1)!
  return { base: driver.nodes[1]!, emitter: own[0]!.nodes[2]! }
}

const diodeOf = (of: Case): string | undefined => of.partWith('diode')
const isFolded = (of: Case): boolean => !Number.isNaN(of.hand('fold'))

/** What a junction and a diode hold when solved, beside what the hand calculation fixed them at. */
function drops(of: Case, point: Point): string {
  const pieces: string[] = []
  const diode = diodeOf(of)
  if (diode) {
    const [anode, cathode] = of.nodesOf(diode) as [string, string]
    const current = -currentInto(of, point, diode, anode)
    const fixed = Number.isNaN(of.hand('I_ZT')) ? '' : ` at its test current of ${amperes(of.hand('I_ZT'))}`
    pieces.push(
      `the diode holds ${volts(voltage(point, cathode, anode))} at ${amperes(current)} and ${celsius(point.junction[diode])}, by hand ${volts(of.hand('Vz'))}${fixed}`,
    )
  }
  const fixedVbe = Number.isNaN(of.hand('Vbe')) ? of.hand('Vbe_amp') : of.hand('Vbe')
  const part = Number.isNaN(of.hand('Vbe')) ? 'Q2' : 'Q1'
  if (!Number.isNaN(fixedVbe)) {
    const { base, emitter } = junctionOf(of, part)
    pieces.push(
      `the base-emitter junction of ${part} ${volts(voltage(point, base, emitter))} at ${celsius(point.junction[part])}, by hand ${volts(fixedVbe)} at 25 °C`,
    )
  }
  return pieces.length > 0 ? `Solved, ${pieces.join('; ')}.` : ''
}

/** Below this share of the voltage taken by hand the amplifier transistor conducts next to nothing: a hundred millivolts are less than a ten-thousandth of its current. */
const STILL_ON = 0.8

/** Where the amplifier transistor has nothing to steal, the loop is open and no hand value of it holds. */
function openLoop(of: Case, point: Point): string {
  const fixed = of.hand('Vbe_amp')
  if (Number.isNaN(fixed)) return ''
  const { base, emitter } = junctionOf(of, 'Q2')
  const isOn = voltage(point, base, emitter) > STILL_ON * fixed
  return isOn ? '' : ' The amplifier transistor is off, so the loop does not regulate here.'
}

function outputBecause(of: Case, point: Point): string {
  const junctions = drops(of, point)
  if (junctions !== '') return junctions + openLoop(of, point)
  const reference = of.partWith('reference')
  const [cathode, anode, third] = reference ? of.nodesOf(reference) : []
  if (reference === undefined || cathode === undefined || anode === undefined) return ''
  const held = voltage(point, third ?? cathode, anode)
  return `By hand no current leaves the divider and the reference holds ${volts(of.hand('Vref'))}. Solved, it holds ${volts(held)} at ${celsius(point.junction[reference])}, and the divider feeds an input.`
}

/** The heat that a part has at the condition by which it was sized. */
const heatAt = (of: Case, part: string, condition: Condition, because: string): Told | undefined =>
  here(
    of,
    condition,
    (point) => point.heat[part] ?? NaN,
    () => because,
  )

/** The reference element at the worst corner for one of its ratings. */
function atElement(of: Case, quantity: string): Told | undefined {
  const part = diodeOf(of) ?? of.partWith('reference')
  const read = of.worst(part, quantity)
  if (!read || part === undefined) return undefined
  const isDiode = diodeOf(of) !== undefined
  const [first, second] = of.nodesOf(part) as [string, string]
  const [cathode, anode] = isDiode ? [second, first] : [first, second]
  const { point } = read
  const current = currentInto(of, point, part, cathode)
  return told(
    read,
    `By hand it holds a fixed voltage at either end of its tolerance. Solved at the worst corner of one board, it holds ${volts(voltage(point, cathode, anode))} at ${amperes(current)} and ${celsius(point.junction[part])}.${leakageWords(of, point, current)}`,
  )
}

/** A resistor at the worst corner for its heat; `byHand` says what was taken to stand across it. */
function atResistor(of: Case, symbol: string, read: ReadAt | undefined, byHand: string): Told | undefined {
  const part = of.bought(symbol)
  if (!read || part === undefined) return undefined
  const [from, to] = of.nodesOf(part) as [string, string]
  const across = Math.abs(voltage(read.point, from, to))
  const through = Math.abs(currentInto(of, read.point, part, from))
  return told(
    read,
    `By hand ${byHand}. Solved at the worst corner of one board, ${volts(across)} stand across it and ${amperes(through)} flow.`,
  )
}

const worstResistor = (of: Case, symbol: string): Told | undefined =>
  atResistor(of, symbol, of.worst(of.bought(symbol), 'power'), 'what it feeds holds a fixed voltage')
const shortedResistor = (of: Case, symbol: string, byHand: string): Told | undefined =>
  atResistor(of, symbol, of.shorted(of.bought(symbol), 'power'), byHand)

/** Beyond what the feed resistor delivers to a diode by this share, something else feeds it too. */
const MORE = 1.02

/** What feeds a diode at the base of a pass transistor beside its resistor: the leakage of a hot collector. */
function leakageWords(of: Case, point: Point, diode: number): string {
  const feed = of.bought('Rs')
  const isAtBase = of.proof.design.topology === 'series-pass'
  if (feed === undefined || !isAtBase) return ''
  const fed = Math.abs(currentInto(of, point, feed, of.nodesOf(feed)[0]!))
  return diode > MORE * fed
    ? ` Its resistor feeds ${amperes(fed)}; the rest leaks through the collector of the pass transistor at ${celsius(point.junction['Q1'])}.`
    : ''
}

const sizing = (of: Case): { hot: Condition; cold: Condition } => {
  const { input, load, ambient } = of.proof.requirements
  return {
    hot: { input: input.max, load: load.max, ambient: ambient.max },
    cold: { input: input.min, load: load.max, ambient: ambient.min },
  }
}

export const READINGS: Readonly<Record<string, Reading>> = {
  Vout_nom: (of) =>
    here(
      of,
      of.nominal,
      (point) => point.output,
      (point) => outputBecause(of, point),
    ),

  V_cmp: (of) =>
    here(
      of,
      of.nominal,
      (point) => point.nodeVoltages['fb'] ?? NaN,
      (point) => drops(of, point) + openLoop(of, point),
    ),

  Vz(of) {
    const diode = diodeOf(of)
    if (!diode) return undefined
    const [anode, cathode] = of.nodesOf(diode) as [string, string]
    return here(
      of,
      of.nominal,
      (point) => voltage(point, cathode, anode),
      (point) =>
        `The data sheet gives it at ${amperes(of.hand('I_ZT'))}; solved, ${amperes(-currentInto(of, point, diode, anode))} flow and the junction is at ${celsius(point.junction[diode])}.`,
    )
  },

  Vbe(of) {
    const { base, emitter } = junctionOf(of, 'Q1')
    return here(
      of,
      of.nominal,
      (point) => voltage(point, base, emitter),
      (point) =>
        `By hand the junction is at 25 °C; solved, it warms to ${celsius(point.junction['Q1'])} and falls by about 2 mV a kelvin.`,
    )
  },

  Vbe_amp(of) {
    const { base, emitter } = junctionOf(of, 'Q2')
    return here(
      of,
      of.nominal,
      (point) => voltage(point, base, emitter),
      (point) =>
        `By hand it is taken at 1 mA and 25 °C; solved, the junction is at ${celsius(point.junction['Q2'])} and carries what the pass transistor leaves it.`,
    )
  },

  IB_max(of) {
    const { cold } = sizing(of)
    const point = of.at(cold, { 'Q1.hFE': -1 })
    if (!point) return undefined
    const { base, emitter } = junctionOf(of, 'Q1')
    const delivered = -currentInto(of, point, 'Q1', emitter)
    const taken = currentInto(of, point, 'Q1', base)
    return told(
      { solved: taken, condition: cold, thermal: 'settled', isWorst: false },
      `Both are of a transistor of least gain at the coldest ambient. By hand it delivers the load current, ${amperes(of.hand('Iout_max'))}; solved, it delivers ${amperes(delivered)}, all that hangs at the output together. With its junction at ${celsius(point.junction['Q1'])} its gain is ${gain(delivered / taken - 1)}, by hand ${gain(of.hand('beta_min'))}.`,
    )
  },

  Iz_max: (of) => atElement(of, 'current'),
  Ik_max: (of) => atElement(of, 'current'),
  Pz_max: (of) => atElement(of, 'power'),
  P_Rs: (of) => worstResistor(of, 'Rs'),
  P_R3: (of) => worstResistor(of, 'R3'),
  Ish_max(of) {
    const read = of.worst('Q1', 'current')
    return (
      read &&
      told(
        read,
        `By hand the output stands at the lowest diode voltage and a fixed base-emitter voltage, ${volts(of.hand('Vz_lo') + of.hand('Vbe'))}. Solved at the worst corner of one board, it stands at ${volts(read.point.output)}.`,
      )
    )
  },

  P_pass: (of) =>
    here(
      of,
      sizing(of).hot,
      (point) => point.heat['Q1'] ?? NaN,
      (point) => {
        const [collector] = of.nodesOf('Q1')
        const { emitter } = junctionOf(of, 'Q1')
        const delivered = -currentInto(of, point, 'Q1', emitter)
        return `By hand ${amperes(of.hand('Iout_max'))} at ${volts(of.hand('P_pass') / of.hand('Iout_max'))}; solved with nominal parts, ${amperes(delivered)} at ${volts(voltage(point, collector!, emitter))}.`
      },
    ),

  P_shunt(of) {
    const { input, load, ambient } = of.proof.requirements
    const least = { input: input.max, load: load.permanent ? load.min : 0, ambient: ambient.max }
    return heatAt(
      of,
      'Q1',
      least,
      'By hand every tolerance adds to the current and the voltage at once; solved, it is of nominal parts.',
    )
  },

  efficiency(of) {
    const { input, load, ambient } = of.proof.requirements
    return here(
      of,
      { input: input.nominal, load: load.max, ambient: ambient.nominal },
      (point) => point.efficiency,
      (point) =>
        `By hand the output is exactly as wanted; solved, it is ${volts(point.output)}, and the currents of every branch count.`,
    )
  },

  I_short(of) {
    const short = of.short()
    if (!short) return undefined
    const drive = currentInto(of, short.point, 'Q1', junctionOf(of, 'Q1').base)
    const most = of.hand('beta_max')
    return told(
      short,
      `By hand ${amperes(of.hand('I_short') / (most + 1))} of base drive at the largest gain of the range, ${gain(most)}; solved, ${amperes(drive)} at a gain of ${gain(short.solved / drive - 1)}. The junction may heat up beyond any rating.`,
    )
  },
  I_sc: (of) =>
    told(of.short(), 'By hand it is what the transistor bears; solved, it is what the limiter lets through.'),
  I_lim(of) {
    const short = isFolded(of) ? undefined : of.short()
    const sense = of.bought('R_sc')
    if (!short || sense === undefined) return undefined
    const [from, to] = of.nodesOf(sense) as [string, string]
    const sensed = currentInto(of, short.point, sense, from)
    return told(
      short,
      `By hand ${volts(of.hand('V_full'))} stand across the sense resistor, at the coldest ambient. Solved, ${volts(voltage(short.point, from, to))} drive ${amperes(sensed)} through it, and ${amperes(short.solved - sensed)} of base drive reach the short past it, through the limiting transistor.`,
    )
  },
  P_lim(of) {
    const short = isFolded(of) ? undefined : of.short()
    return (
      short &&
      told(
        { ...short, solved: short.point.heat['Q1'] ?? NaN },
        'Solved, what the sense resistor drops is not in the transistor.',
      )
    )
  },
  P_sc: (of) =>
    isFolded(of)
      ? undefined
      : shortedResistor(of, 'R_sc', `${volts(of.hand('V_full'))} stand across it, at the coldest ambient`),
  P_Rs_short: (of) => shortedResistor(of, 'Rs', 'the whole input stands across it'),

  Vin_need: (of) => {
    const { minimumInput } = of.proof
    const { load } = of.proof.requirements
    return told(
      {
        solved: minimumInput.value,
        condition: { input: minimumInput.value, load: load.max, ambient: minimumInput.ambient },
        thermal: thermalName(minimumInput.mode),
        isWorst: true,
      },
      'By hand every drop is at its most; solved, it is the lowest input that still holds the lower edge of the band.',
    )
  },
}
