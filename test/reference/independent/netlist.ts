/**
 * Writes the independent solver's netlist text from plain circuit elements alone. Nothing of the engine runs here: only its
 * types are imported, and every equation below was written from the published contract and from textbook device models.
 *
 * The library's own junction models carry the diodes and the transistors, so that agreement says something about our device
 * equations; loads, amplifiers and shunt references are behavioural sources, because the library has no such part.
 *
 * Each terminal is reached through a 0 V source, whose branch current is the current into that terminal.
 */
import type { Amplifier, Bjt, Diode, Element, Netlist, Reference } from '../../../engine/devices/elements.ts'
import type { Condition, Overrides } from '../../../engine/compare/comparison.ts'

/** Everything besides the elements that fixes one DC solution. */
export interface Situation {
  readonly condition: Condition
  /** Degrees Celsius by part; a part left out is at ambient. */
  readonly junction?: Readonly<Record<string, number>>
  readonly overrides?: Readonly<Overrides>
  /**
   * Volts by node where the search begins. It only selects the branch of a circuit that has several solutions; the solver
   * lets go of it before it accepts an answer.
   */
  readonly near?: Readonly<Record<string, number>>
}

/** Netlist text, and the names under which the solver reports what was asked for. */
export interface Deck {
  readonly title: string
  readonly text: string
  /** The solver's name of each node; the ground is `0`. */
  readonly nodeNames: Readonly<Record<string, string>>
  /** By element, by terminal: the meter's name, or `undefined` where no current can flow. */
  readonly meters: Readonly<Record<string, readonly (string | undefined)[]>>
}

const ZERO_CELSIUS = 273.15
/** The library's own constants (CODATA 2014): the saturation current below must be the one it computes. */
const BOLTZMANN_OVER_CHARGE = 1.38064852e-23 / 1.6021766208e-19

/**
 * Solver settings, tried in this order. At the library's default tolerances a breakdown diode is 0.2 mV off; its default
 * conductance of 1e-12 S across every junction, a crutch of the solver and no part of the models, is lowered until it no
 * longer shows. Where the search does not end with these, rounding is in its way (an amplifier multiplies the last digit of a
 * voltage) or the crutch is missed; what any of the others finds is still far inside the tolerance of the comparison.
 */
export const SETTINGS: readonly string[] = [
  'reltol=1e-7 abstol=1e-13 vntol=1e-10 gmin=1e-15 itl1=500',
  'reltol=1e-7 abstol=1e-16 vntol=1e-10 gmin=1e-15 itl1=500',
  'reltol=1e-6 abstol=1e-12 vntol=1e-8 gmin=1e-15 itl1=500',
  'reltol=1e-7 abstol=1e-16 vntol=1e-10 gmin=1e-12 itl1=500',
]

let decks = 0

/** Builds the netlist of one DC solution. Throws on an element kind or an override that it does not know. */
export function toNetlist(netlist: Netlist, situation: Situation, settings = SETTINGS[0]!): Deck {
  const { condition, junction = {}, overrides = {}, near = {} } = situation
  const title = `operating point ${++decks}`
  const lines = [title, `.options ${settings}`]
  const nodeNames: Record<string, string> = { [netlist.ground]: '0' }
  const meters: Record<string, (string | undefined)[]> = {}
  const known = new Set(netlist.elements.map((element) => element.id))
  for (const id of Object.keys(overrides)) if (!known.has(id)) throw new Error(`override of an unknown element: ${id}`)

  netlist.elements.forEach((nominal, index) => {
    const element = atCondition(withOverrides(nominal, overrides[nominal.id] ?? {}), condition)
    const celsius = junction[element.part] ?? condition.ambient
    const nodes: readonly string[] = element.nodes
    for (const node of nodes) nodeNames[node] ??= `n${Object.keys(nodeNames).length}`
    if (element.kind === 'capacitor') {
      meters[element.id] = [undefined, undefined]
      return
    }
    meters[element.id] = nodes.map((_, terminal) => `vm${index}_${terminal}`)
    const inner = nodes.map((node, terminal) => {
      lines.push(`vm${index}_${terminal} ${nodeNames[node]!} t${index}_${terminal} 0`)
      return `t${index}_${terminal}`
    })
    lines.push(...deviceLines(element, String(index), inner, celsius))
  })

  for (const [node, volts] of Object.entries(near)) {
    const name = nodeNames[node]
    if (name !== undefined && name !== '0') lines.push(`.nodeset v(${name})=${volts}`)
  }
  lines.push('.op', '.end')
  return { title, text: lines.join('\n'), nodeNames, meters }
}

/** A copy of the element with some parameters replaced: its own fields, or those of its model. */
function withOverrides(element: Element, changes: Readonly<Record<string, number>>): Element {
  const copy = structuredClone(element) as unknown as Record<string, unknown>
  const model = copy['model'] as Record<string, number> | undefined
  for (const [parameter, value] of Object.entries(changes)) {
    if (model !== undefined) model[parameter] = value
    else if (typeof copy[parameter] === 'number') copy[parameter] = value
    else throw new Error(`override of an unknown parameter: ${element.id}.${parameter}`)
  }
  return copy as unknown as Element
}

function atCondition(element: Element, condition: Condition): Element {
  if (element.id === 'input' && element.kind === 'voltage-source') return { ...element, value: condition.input }
  if (element.id === 'load' && element.kind === 'current-source') return { ...element, value: condition.load }
  return element
}

function deviceLines(
  element: Exclude<Element, { kind: 'capacitor' }>,
  tag: string,
  t: string[],
  celsius: number,
): string[] {
  const [a = '', b = ''] = t
  switch (element.kind) {
    case 'voltage-source':
      return [`v${tag} ${a} ${b} ${element.value}`]
    case 'current-source':
      if (element.id === 'load') return [`b${tag} ${a} ${b} i=${element.value}*tanh((v(${a})-v(${b}))/0.1)`]
      return [`i${tag} ${a} ${b} ${element.value * doubling(element, celsius)}`]
    case 'resistor': {
      const model = `.model rm${tag} r(tc1=${element.tc1 ?? 0} tnom=${element.tnom ?? 25})`
      return [model, `r${tag} ${a} ${b} ${element.ohms} rm${tag} temp=${celsius}`]
    }
    case 'diode':
      return diodeLines(element, tag, [a, b], celsius)
    case 'npn':
    case 'pnp':
      return [bjtModel(element, tag), `q${tag} ${t.join(' ')} qm${tag} temp=${celsius}`]
    case 'amplifier':
      return amplifierLines(element, tag, t, celsius)
    case 'reference':
      return referenceLines(element, tag, t, celsius)
    default:
      throw new Error(`unknown element kind: ${JSON.stringify(element satisfies never)}`)
  }
}

function doubling(element: { doublesEvery?: number; tnom?: number }, celsius: number): number {
  return element.doublesEvery === undefined ? 1 : 2 ** ((celsius - (element.tnom ?? 25)) / element.doublesEvery)
}

/** A series resistance below this is none: its conductance would drown every other one of the library's matrix. */
const LEAST_OHMS = 1e-6

/** Below this share of IBV, what the breakdown branch would carry at 0 V is nothing. */
const HARD = 1e-12

/** Amperes; a saturation current above this would show against the 1 nA that the comparison lets pass. */
const COOL = 1e-10

/**
 * The library joins breakdown to its reverse region at a voltage xbv of its own, -IS·exp(-(v + xbv)/(NBV·VT)), which it finds
 * from BV and IBV by IBV' = IS·(exp((BV - xbv)/(NBV·VT)) - 1 + xbv/VT). Our branch is IBV·exp(-(v + BV)/(NBV·VT)), so
 * xbv = BV - NBV·VT·ln(IBV/IS): the IBV' that leads there is given to it. IS is taken at the device's temperature.
 * Its breakdown voltage falls by `tcv` per kelvin where ours rises by `tc`.
 *
 * The library has no breakdown current above -3·N·VT and does not make it vanish at 0 V, as ours does. With a knee so soft
 * (a few volts, hundreds of millivolts a decade) that this shows, its model carries the forward branch alone, and the
 * breakdown branch is a behavioural source across the junction. Short of xbv the library has the saturation current alone
 * and beyond it the breakdown branch alone, where ours adds them: in a junction so hot that this shows, a behavioural source
 * adds the smaller of the two. With either the series resistance is a resistor.
 */
function diodeLines(element: Diode, tag: string, [anode, cathode]: [string, string], celsius: number): string[] {
  const { IS, N, BV, IBV, NBV, EG, XTI, TNOM, tc } = element.model
  const RS = element.model.RS < LEAST_OHMS ? 0 : element.model.RS
  const kelvin = celsius + ZERO_CELSIUS
  const ratio = kelvin / (TNOM + ZERO_CELSIUS)
  const vt = BOLTZMANN_OVER_CHARGE * kelvin
  const breakdown = BV + tc * (celsius - TNOM)
  const saturation = IS * Math.exp(((ratio - 1) * EG) / (N * vt) + (XTI / N) * Math.log(ratio))
  const joint = breakdown - NBV * vt * Math.log(IBV / saturation)
  const mapped = IBV - saturation + (saturation * joint) / vt
  const atZero = Math.exp(-breakdown / (NBV * vt))
  const forward = `is=${IS} n=${N} eg=${EG} xti=${XTI} tnom=${TNOM}`
  const reverse = `bv=${BV} ibv=${mapped} nbv=${NBV} tcv=${-tc}`
  const isSoft = atZero > HARD
  if (!isSoft && saturation < COOL) {
    return [`.model dm${tag} d(${forward} ${reverse} rs=${RS})`, `d${tag} ${anode} ${cathode} dm${tag} temp=${celsius}`]
  }
  const junction = RS > 0 ? `j${tag}` : anode
  const across = `(v(${junction})-v(${cathode}))`
  const branch = `${IBV}*exp(-(${across}+(${breakdown}))/${NBV * vt})`
  return [
    ...(RS > 0 ? [`rs${tag} ${anode} ${junction} ${RS}`] : []),
    `.model dm${tag} d(${forward}${isSoft ? '' : ` ${reverse}`})`,
    `d${tag} ${junction} ${cathode} dm${tag} temp=${celsius}`,
    isSoft
      ? `bz${tag} ${cathode} ${junction} i=${branch}-${IBV * atZero}`
      : `bz${tag} ${cathode} ${junction} i=${across} < ${-joint} ? ${saturation} : ${branch}`,
  ]
}

/** The published parameter names are the library's own; what the element leaves out, the library defaults. */
function bjtModel(element: Bjt, tag: string): string {
  const given = Object.entries(element.model).map(([name, value]) => `${name.toLowerCase()}=${String(value)}`)
  return `.model qm${tag} ${element.kind}(${given.join(' ')})`
}

const smoothPositive = (u: string): string => `(((${u})+sqrt((${u})*(${u})+0.01))/2)`
const ramp = (u: string): string => `(((${u})+sqrt((${u})*(${u})+1e-12))/2)`

/** The amplifier of the contract, one auxiliary node a step: x (input), s (half swing), e (internal output), o (output current in volts). */
function amplifierLines(element: Amplifier, tag: string, t: string[], celsius: number): string[] {
  const m = element.model
  const [p = '', n = '', out = '', vP = '', vM = ''] = t
  const supply = `(v(${vP})-v(${vM}))`
  const common = `((v(${p})+v(${n}))/2-v(${vM}))`
  const offset = m.VOS + m.DVOS * (celsius - m.TNOM)
  const high = `(v(${vP})-${m.DH})`
  const low = `(v(${vM})+${m.DL})`
  const i = `((v(e${tag})-v(${out}))/${m.RO})`
  const quiescent = `${m.IQ}*tanh(${supply})`
  const [x, s, e, o] = [`v(x${tag})`, `v(s${tag})`, `v(e${tag})`, `v(o${tag})`]
  return [
    `bx${tag} x${tag} 0 v=v(${p})-v(${n})+(${offset})+(${supply}-(${m.VS0}))/${m.PSRR}+(${common}-(${m.VC0}))/${m.CMRR}`,
    `bs${tag} s${tag} 0 v=${smoothPositive(`${high}-${low}`)}/2`,
    `be${tag} e${tag} 0 v=(${high}+${low})/2+${s}*tanh(${m.A0}*${x}/${s})`,
    `bo${tag} o${tag} 0 v=${e} > v(${out}) ? ${m.ISRC}*tanh(${i}/${m.ISRC}) : ${m.ISNK}*tanh(${i}/${m.ISNK})`,
    `bio${tag} ${out} 0 i=-${o}`,
    `bip${tag} ${vP} 0 i=${quiescent}+${ramp(o)}+${2 * m.IB}`,
    `bim${tag} ${vM} 0 i=-(${quiescent}+${ramp(`-${o}`)})`,
    `ib${tag}p ${p} 0 ${-m.IB}`,
    `ib${tag}m ${n} 0 ${-m.IB}`,
  ]
}

const REFERENCE_SOFTNESS = 0.2e-3

/** The shunt reference of the contract; y is written so that no exponential overflows. */
function referenceLines(element: Reference, tag: string, t: string[], celsius: number): string[] {
  const m = element.model
  const [cathode = '', anode = '', ref = ''] = t
  const [vka, vra] = [`(v(${cathode})-v(${anode}))`, `(v(${ref})-v(${anode}))`]
  const W = REFERENCE_SOFTNESS
  const argument = (m.ZD * (m.ITEST - m.IKMIN)) / W
  const knee = W * (argument + Math.log1p(-Math.exp(-argument)))
  const fixed = m.VREF + m.tc * (celsius - m.TNOM) - knee
  const u = `v(u${tag})`
  const y = `v(y${tag})`
  return [
    `bu${tag} u${tag} 0 v=(${vra}-(${fixed})-(${m.KD})*(${vka}-${m.VREF}))/${W}`,
    `by${tag} y${tag} 0 v=${W}*(${u} > 0 ? ${u}+ln(1+exp(-${u})) : ln(1+exp(${u})))`,
    `bk${tag} ${cathode} ${anode} i=${m.IKMIN}*tanh(${vka}/0.5)+${y}/${m.ZD}*tanh(${smoothPositive(`${vka}-${m.VSAT}`)}/0.2)`,
    `br${tag} ${ref} ${anode} i=${m.IREF}*tanh(${vra}/0.5)`,
  ]
}
