/**
 * Writes the independent solver's netlist text from plain circuit elements alone. Nothing of the engine runs here: only its
 * types are imported, and every equation below was written from the published contract and from textbook device models.
 *
 * The library's own junction models carry the diodes and the transistors, so that agreement says something about our device
 * equations; loads, amplifiers and shunt references are behavioural sources, because the library has no such part.
 *
 * Currents are read at 0 V sources, the meters. Every resistance, also those inside a diode or a transistor, is a voltage
 * of so many volts per ampere of its meter, not the library's resistor: as a conductance it would be added to whatever else
 * conducts at its node, and beside the siemens of an emitter resistance nothing is left of the 1e-17 S that decide where
 * the output of an unloaded follower floats. Nor can the library then choose as a pivot, once and for all, a conductance
 * that vanishes later on: a saturated amplifier's, say, which left its output tenths of a volt off the node it is tied to.
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
  /** By element, by terminal: where its current is read, or `undefined` where none can flow. */
  readonly currents: Readonly<Record<string, readonly (Reading | undefined)[]>>
  /** The two nodes of every meter, in the solver's names. */
  readonly meters: readonly (readonly [string, string])[]
}

/** The current of a source; `sign` is -1 where the terminal is the one at which it comes out again. */
export interface Reading {
  readonly source: string
  readonly sign: 1 | -1
}

const ZERO_CELSIUS = 273.15
/** The library's own constants (CODATA 2014): the saturation current below must be the one it computes. */
const BOLTZMANN_OVER_CHARGE = 1.38064852e-23 / 1.6021766208e-19

/**
 * Solver settings, tried in this order. At the library's default tolerances a breakdown diode is 0.2 mV off; its default
 * conductance of 1e-12 S across every junction, a crutch of the solver and no part of the models, is lowered until it no
 * longer shows even at an output that only a blocked junction feeds. Where the search does not end with these, rounding is in
 * its way (an amplifier multiplies the last digit of a voltage) or the crutch is missed; what the others find is still far
 * inside the tolerance of the comparison.
 */
export const SETTINGS: readonly string[] = [
  'reltol=1e-7 abstol=1e-13 vntol=1e-10 gmin=1e-22 itl1=500',
  'reltol=1e-6 abstol=1e-12 vntol=1e-8 gmin=1e-22 itl1=500',
  'reltol=1e-7 abstol=1e-16 vntol=1e-10 gmin=1e-12 itl1=500',
]

let decks = 0

/** Builds the netlist of one DC solution. Throws on an element kind or an override that it does not know. */
export function toNetlist(netlist: Netlist, situation: Situation, settings = SETTINGS[0]!): Deck {
  const { condition, junction = {}, overrides = {}, near = {} } = situation
  const title = `operating point ${++decks}`
  const lines = [title, `.options ${settings}`]
  const nodeNames: Record<string, string> = { [netlist.ground]: '0' }
  const currents: Record<string, (Reading | undefined)[]> = {}
  const meters: (readonly [string, string])[] = []
  const known = new Set(netlist.elements.map((element) => element.id))
  for (const id of Object.keys(overrides)) if (!known.has(id)) throw new Error(`override of an unknown element: ${id}`)

  netlist.elements.forEach((nominal, index) => {
    const element = atCondition(withOverrides(nominal, overrides[nominal.id] ?? {}), condition)
    const celsius = junction[element.part] ?? condition.ambient
    const nodes: readonly string[] = element.nodes
    for (const node of nodes) nodeNames[node] ??= `n${Object.keys(nodeNames).length}`
    const tag = String(index)
    const outer = nodes.map((node) => nodeNames[node]!)
    if (element.kind === 'capacitor') {
      currents[element.id] = [undefined, undefined]
      return
    }
    // two terminals carry one current, and a voltage source reads its own
    const metered = element.kind === 'voltage-source' ? 0 : nodes.length === 2 ? 1 : nodes.length
    currents[element.id] = nodes.map((_, terminal) =>
      nodes.length === 2
        ? { source: metered === 0 ? `v${tag}` : `vm${tag}_0`, sign: terminal === 0 ? 1 : -1 }
        : { source: `vm${tag}_${terminal}`, sign: 1 },
    )
    const inner = outer.map((name, terminal) => {
      if (terminal >= metered) return name
      const behind = `t${tag}_${terminal}`
      lines.push(`vm${tag}_${terminal} ${name} ${behind} 0`)
      meters.push([name, behind])
      return behind
    })
    lines.push(...deviceLines(element, tag, inner, celsius))
  })

  for (const [node, volts] of Object.entries(near)) {
    const name = nodeNames[node]
    if (name !== undefined && name !== '0') lines.push(`.nodeset v(${name})=${volts}`)
  }
  lines.push('.op', '.end')
  return { title, text: lines.join('\n'), nodeNames, currents, meters }
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
    case 'resistor':
      return [
        `h${tag} ${a} ${b} vm${tag}_0 ${element.ohms * (1 + (element.tc1 ?? 0) * (celsius - (element.tnom ?? 25)))}`,
      ]
    case 'diode':
      return diodeLines(element, tag, [a, b], celsius)
    case 'npn':
    case 'pnp':
      return bjtLines(element, tag, t, celsius)
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
 * adds the smaller of the two.
 */
function diodeLines(element: Diode, tag: string, [anode, cathode]: [string, string], celsius: number): string[] {
  const { IS, N, RS, BV, IBV, NBV, EG, XTI, TNOM, tc } = element.model
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
  const [series, junction] = behindOhms(tag, 0, anode, RS)
  const ownBreakdown = isSoft ? '' : ` ${reverse}`
  const lines = [
    ...series,
    `.model dm${tag} d(${forward}${ownBreakdown})`,
    `d${tag} ${junction} ${cathode} dm${tag} temp=${celsius}`,
  ]
  if (!isSoft && saturation < COOL) return lines
  const across = `(v(${junction})-v(${cathode}))`
  const branch = `${IBV}*exp(-(${across}+(${breakdown}))/${NBV * vt})`
  const missing = isSoft ? `${branch}-${IBV * atZero}` : `${across} < ${-joint} ? ${saturation} : ${branch}`
  return [...lines, `bz${tag} ${cathode} ${junction} i=${missing}`]
}

/** A resistance in series with a metered terminal, and the node behind it. */
function behindOhms(tag: string, terminal: number, node: string, ohms: number): [lines: string[], behind: string] {
  if (ohms === 0) return [[], node]
  const behind = `s${tag}_${terminal}`
  return [[`h${tag}_${terminal} ${node} ${behind} vm${tag}_${terminal} ${ohms}`], behind]
}

/**
 * The published parameter names are the library's own; what the element leaves out, the library defaults.
 *
 * Where a junction is reverse biased by more than three times its n·VT, the library has -IS·(1 + (3·n·VT/(e·v))³) for our
 * IS·(exp(v/(n·VT)) - 1). That is 0.4 % of IS at most, and nothing but the base-emitter junction of an unloaded follower
 * notices, whose emitter floats where the currents of such a junction cancel. Two behavioural sources add what is missing of
 * it, to the collector's current (over qb, which is 1/(1 - vbc/VAF - vbe/VAR) in a blocked transistor) and to the base's.
 */
function bjtLines(element: Bjt, tag: string, t: string[], celsius: number): string[] {
  const { RC = 0, RB = 0, RE = 0, ...model } = element.model
  const [toCollector, c] = behindOhms(tag, 0, t[0] ?? '', RC)
  const [toBase, b] = behindOhms(tag, 1, t[1] ?? '', RB)
  const [toEmitter, e] = behindOhms(tag, 2, t[2] ?? '', RE)
  const given = Object.entries(model).map(([name, value]) => `${name.toLowerCase()}=${String(value)}`)

  const { IS, BF, NF = 1, ISE = 0, NE = 1.5, VAF = 0, VAR = 0, XTB = 0, EG = 1.11, XTI = 3, TNOM = 27 } = model
  const kelvin = celsius + ZERO_CELSIUS
  const ratio = kelvin / (TNOM + ZERO_CELSIUS)
  const vt = BOLTZMANN_OVER_CHARGE * kelvin
  const growth = ((ratio - 1) * EG) / vt + XTI * Math.log(ratio)
  const beta = ratio ** XTB
  const [vbe, vbc] =
    element.kind === 'npn' ? [`(v(${b})-v(${e}))`, `(v(${b})-v(${c}))`] : [`(v(${e})-v(${b}))`, `(v(${c})-v(${b}))`]
  const missing = (is: number, nvt: number): string => {
    const cubed = ((3 * nvt) / Math.E) ** 3
    return `(${vbe} < ${-3 * nvt} ? ${is}*(exp(${vbe}/${nvt})+${cubed}/(${vbe}*${vbe}*${vbe})) : 0)`
  }
  const forward = missing(IS * Math.exp(growth), NF * vt)
  const leaking = ISE > 0 ? `+${missing((ISE / beta) * Math.exp(growth / NE), NE * vt)}` : ''
  const early = `(1${VAF > 0 ? `-${vbc}/${VAF}` : ''}${VAR > 0 ? `-${vbe}/${VAR}` : ''})`
  const through = (from: string, to: string): string => (element.kind === 'npn' ? `${from} ${to}` : `${to} ${from}`)
  return [
    ...toCollector,
    ...toBase,
    ...toEmitter,
    `.model qm${tag} ${element.kind}(${given.join(' ')})`,
    `q${tag} ${c} ${b} ${e} qm${tag} temp=${celsius}`,
    `bc${tag} ${through(c, e)} i=${forward}*${early}`,
    `bb${tag} ${through(b, e)} i=${forward}/${BF * beta}${leaking}`,
  ]
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
