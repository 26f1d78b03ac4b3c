/** What to be warned of, each in a sentence or two with the numbers of this design and the part that would help. */
import { findTransistor } from '../../parts/transistor/index.ts'
import { capital, entryText, formatQuantity, lower } from '../../units/index.ts'
import { stressOf } from '../ratings.ts'
import type { Proof } from '../prove.ts'
import type { Fault, Faults, Fuse } from './index.ts'
import { passOf } from './limiter.ts'

export function cautionsOf(proof: Proof, faults: Omit<Faults, 'cautions'>): string[] {
  const { design } = proof
  return [
    ...overVoltage(faults),
    ...faults.list.flatMap((fault) => burning(fault)),
    ...latching(faults),
    ...backwards(proof),
    ...reversed(proof),
    ...surge(proof),
    ...(design.parts.length > 0
      ? [
          'Which part fails, and how, is assumed; a real failure may take others with it. Protection is to be tested on the bench.',
        ]
      : []),
  ]
}

/** As fuses are marked, without digits that say nothing: `32 mA`, `1.25 A`. */
const rated = ({ rating }: Fuse): string => entryText(rating, 'A').replace(' ', '\u202F')

/** `If Q1 fails shorted`, `With the output shorted`. */
export function whenever({ fault, title, part }: Pick<Fault, 'fault' | 'title' | 'part'>): string {
  if (fault === 'output-shorted') return 'With the output shorted'
  if (fault === 'load-removed') return 'With the load taken away'
  return `If ${part} fails ${title.endsWith('shorted') ? 'shorted' : 'open'}`
}

/** The worst overvoltage in full, the others by their number. */
function overVoltage({ list, band, fuse }: Omit<Faults, 'cautions'>): string[] {
  // without load nobody is there to see it
  const [worst, ...others] = list
    .flatMap((fault) =>
      fault.part !== undefined && fault.output && fault.output.highest > band.high
        ? [{ fault, volts: fault.output.highest }]
        : [],
    )
    .toSorted((a, b) => b.volts - a.volts)
  if (!worst) return []
  const { crowbar, fuse: opens } = worst.fault.protection
  const rest = others.map(({ fault, volts }) => `${lower(whenever(fault))}, ${formatQuantity(volts, 'V')}`).join('; ')
  return [
    [
      `${whenever(worst.fault)}, the load sees up to ${formatQuantity(worst.volts, 'V')}; ${formatQuantity(band.high, 'V')} is allowed.`,
      rest && `${capital(rest)}.`,
      fuse && opens === 'holds' && `A ${rated(fuse)} fuse in the input alone does not notice.`,
      crowbar && crowbarWords(crowbar, fuse),
    ]
      .filter(Boolean)
      .join(' '),
  ]
}

function crowbarWords(crowbar: NonNullable<Fault['protection']['crowbar']>, fuse: Faults['fuse']): string {
  const { trip, current, over } = crowbar
  const held = `A crowbar that fires at ${formatQuantity(trip, 'V')} keeps it below that`
  if (current === undefined)
    return `${held} and shorts the supply: it needs ${fuse ? `the ${rated(fuse)} fuse` : 'a fuse'} before it.`
  const carries = `${held}; it carries ${formatQuantity(current, 'A')}`
  if (crowbar.fuse === 'blows') return `${carries}, and the ${rated(fuse!)} fuse opens.`
  const [worst] = over
  return worst
    ? `${carries}, no fuse is sure to open, and ${worst.part} is beyond its rating meanwhile.`
    : `${carries} for as long as the input stays.`
}

function burning(fault: Fault): string[] {
  const worst = fault.over.find(({ quantity }) => quantity === 'heat' || quantity === 'power')
  if (fault.settles) return []
  if (!worst) return [`${whenever(fault)}, no temperature settles below 400 °C: a part burns.`]
  return [
    `${whenever(fault)}, ${worst.part} takes ${formatQuantity(worst.stress, 'W')} at first and its cooling carries ${formatQuantity(worst.allowed, 'W')}: no temperature settles, it burns.`,
  ]
}

function latching({ loadLine }: Omit<Faults, 'cautions'>): string[] {
  const found = loadLine?.latchUp
  if (!found) return []
  const { rests, widest, input, ambient } = found
  return [
    `A load that draws its full current at any voltage can keep the output at ${formatQuantity(rests, 'V')} after a short or at switch-on: at ${formatQuantity(input, 'V')} in and ${formatQuantity(ambient, '°C')} the circuit delivers ${formatQuantity(widest.delivered, 'A')} at ${formatQuantity(widest.volts, 'V')} where ${formatQuantity(widest.drawn, 'A')} are drawn.`,
  ]
}

/** The input shorted while the output capacitor is charged: the pass transistor's base-emitter junction bears the output backwards. */
function backwards({ design, requirements }: Proof): string[] {
  const pass = passOf(design)
  const row = pass?.partNumber === undefined ? undefined : findTransistor(pass.partNumber)
  const capacitor = design.parts.find(({ role }) => role === 'output capacitor')
  if (!pass || !row || capacitor?.value === undefined) return []
  const volts = requirements.output.voltage * (1 + requirements.output.tolerance)
  const charged = `${capacitor.id} (${formatQuantity(capacitor.value, 'F')} at up to ${formatQuantity(volts, 'V')})`
  return volts > row.VEBO
    ? [
        `If the input is shorted, ${charged} discharges backwards through ${pass.id}, whose base-emitter junction bears ${formatQuantity(row.VEBO, 'V')} backwards: add a diode from output to input.`,
      ]
    : [
        `If the input is shorted, ${charged} discharges backwards through ${pass.id}; its base-emitter junction bears ${formatQuantity(row.VEBO, 'V')} backwards, so a diode from output to input is needed only where the capacitor is larger or a battery hangs on the output.`,
      ]
}

/** Volts that a silicon and a Schottky diode in the input cost: typical, from memory. */
const SILICON = 0.8
const SCHOTTKY = 0.4

/** A reversed input, and whether there is room for the diode that blocks it. */
function reversed({ requirements, minimumInput }: Proof): string[] {
  const spare = requirements.input.min - minimumInput.value
  const start = 'A reversed input drives current backwards through the reference and the output capacitor.'
  if (!Number.isFinite(spare)) return [start]
  const room = formatQuantity(Math.max(0, spare), 'V')
  const fits =
    spare >= SILICON
      ? `a diode in the input (about ${formatQuantity(SILICON, 'V')}) fits into the ${room} that the lowest input has to spare.`
      : spare >= SCHOTTKY
        ? `only a Schottky diode in the input (about ${formatQuantity(SCHOTTKY, 'V')}) fits into the ${room} that the lowest input has to spare.`
        : `the lowest input has ${room} to spare, too little for a diode in the input: block it with a transistor, or with a diode across the input and a fuse.`
  return [`${start} Against it, ${fits}`]
}

/** The input voltage at which the first voltage rating is reached. */
function surge({ observer, limits, requirements }: Proof): string[] {
  let first: { part: string; volts: number } | undefined
  observer.prepared.limits.forEach(({ part, limit }, k) => {
    const { measure } = limit
    if (measure.of !== 'voltage' || limit.sense === 'min' || (measure.plus !== 'in' && measure.minus !== 'in')) return
    const volts = requirements.input.max + limit.rating - stressOf(observer, k, limits[k]!).stress
    if (!first || volts < first.volts) first = { part, volts }
  })
  return first
    ? [
        `A surge above about ${formatQuantity(first.volts, 'V')} at the input breaks ${first.part} (its maker's rating, the output standing): clamp the input below that.`,
      ]
    : []
}
