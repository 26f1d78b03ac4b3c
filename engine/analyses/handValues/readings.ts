/** By symbol of the working: the solved value that answers to it, and what the hand calculation left out. */
import { formatQuantity } from '../../units/index.ts'
import { type Condition, type Point, thermalName } from '../point.ts'
import type { Case, Read } from './case.ts'
import { currentInto } from './case.ts'

type Told = Read & { readonly because: string }
type Reading = (of: Case) => Told | undefined

const volts = (value: number): string => formatQuantity(value, 'V')
const amperes = (value: number): string => formatQuantity(value, 'A')
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

const STRAY =
  'The hand formula puts both ends of the tolerances into one product; solved, it is the worst corner that one and the same board can reach'
const shuntCurrent = (of: Case): Told | undefined =>
  told(
    of.worst(diodeOf(of) ?? of.partWith('reference'), 'current'),
    `${STRAY}, with the slope of the element and its temperature.`,
  )

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
    return told(
      { solved: currentInto(of, point, 'Q1', base), condition: cold, thermal: 'settled', isWorst: false },
      `Both are of a transistor of least gain at the coldest ambient. By hand it delivers the load current, ${amperes(of.hand('Iout_max'))}; solved, it delivers ${amperes(delivered)}, all that hangs at the output together, with its junction at ${celsius(point.junction['Q1'])}.`,
    )
  },

  Iz_max: shuntCurrent,
  Ik_max: shuntCurrent,
  Pz_max: (of) =>
    told(
      of.worst(diodeOf(of) ?? of.partWith('reference'), 'power'),
      `${STRAY}, with the slope of the element and its temperature.`,
    ),
  P_Rs: (of) => told(of.worst(of.bought('Rs'), 'power'), `${STRAY}.`),
  P_R3: (of) => told(of.worst(of.bought('R3'), 'power'), `${STRAY}.`),
  Ish_max: (of) => told(of.worst('Q1', 'current'), `${STRAY}; the diode and its resistor take their share.`),

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

  I_short: (of) =>
    told(
      of.short(),
      'By hand the gain stays as large as ever; solved, it falls at so large a current, and the junction may heat up beyond any rating.',
    ),
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
      : told(of.shorted(of.bought('R_sc'), 'power'), 'Solved, at the threshold of the junction as it warms.'),
  P_Rs_short: (of) =>
    told(
      of.shorted(of.bought('Rs'), 'power'),
      'By hand the whole input stands across it; solved, what follows it keeps a share.',
    ),

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
