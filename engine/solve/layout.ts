/** From the netlist to flat arrays: which unknowns there are, and where every element reads and writes. */
import type { Element, ElementKind, Netlist } from '../devices/elements.ts'
import { DEVICES } from '../devices/index.ts'
import type { DeviceSet, Layout } from './circuit.ts'
import { Entries, FIRST_OUT, layOutResistors, type SeriesResistance, stampDevices } from './entries.ts'
import type { Names } from './names.ts'
import { layOutSources } from './sources.ts'
import type { CompileOptions } from './types.ts'

/** Codes of what a temperature touches (see `Temperature`). */
export const PREPARED_KINDS = ['resistor', 'current-source', 'diode', 'bjt', 'amplifier', 'reference'] as const
const preparedCode = (kind: ElementKind): number =>
  PREPARED_KINDS.indexOf(kind === 'npn' || kind === 'pnp' ? 'bjt' : (kind as (typeof PREPARED_KINDS)[number]))

function setName(element: Element): 'diode' | 'bjt' | 'amplifier' | 'reference' | 'load' | 'fixed' {
  if (element.kind === 'npn' || element.kind === 'pnp') return 'bjt'
  if (element.kind === 'current-source') return element.id === 'load' ? 'load' : 'fixed'
  return element.kind as 'diode' | 'amplifier' | 'reference'
}

interface Gathered {
  readonly terminals: number[]
  readonly derivedAt: number[]
  readonly outAt: number[]
}
const gather = (): Gathered => ({ terminals: [], derivedAt: [], outAt: [] })
const setOf = (g: Gathered): DeviceSet => ({
  count: g.outAt.length,
  terminals: Int32Array.from(g.terminals),
  derivedAt: Int32Array.from(g.derivedAt),
  outAt: Int32Array.from(g.outAt),
})

/** Lays out the unknowns and the places of every element. */
export function layOut(
  netlist: Netlist,
  options: CompileOptions,
  names: Names,
  parameters: Float64Array,
  parameterAt: Int32Array,
): Layout {
  const nodeOf = (name: string): number => names.nodeIndex.get(name)!
  const series: SeriesResistance[] = []
  const inner: number[] = []
  const nodeCount = names.nodes.length
  const sets = {
    diode: gather(),
    bjt: gather(),
    amplifier: gather(),
    reference: gather(),
    load: gather(),
    fixed: gather(),
  }
  const polarity: number[] = []
  const touched: { part: number; kind: number; index: number; parameterAt: number }[] = []
  const plainResistors: { element: Element; parameterAt: number; out: number }[] = []
  const terminalFrom: number[] = []
  const terminalNode: number[] = []
  const terminalPart: number[] = []
  const sourceOut = new Map<string, number>()
  let derived = 0
  let out = FIRST_OUT

  netlist.elements.forEach((element, index) => {
    const description = DEVICES[element.kind]
    const part = names.partIndex.get(element.part)!
    const at = parameterAt[index]!
    const ends = element.nodes.map(nodeOf)
    const pushTerminal = (terminal: number, from: number): void => {
      terminalFrom.push(from)
      terminalNode.push(ends[terminal]!)
      terminalPart.push(part)
    }
    if (element.kind === 'capacitor') {
      pushTerminal(0, 0)
      pushTerminal(1, 0)
      return
    }
    if (element.kind === 'voltage-source' || element.kind === 'resistor') {
      pushTerminal(0, out)
      pushTerminal(1, out + 1)
      if (element.kind === 'resistor') {
        touched.push({ part, kind: preparedCode('resistor'), index: plainResistors.length, parameterAt: at })
        plainResistors.push({ element, parameterAt: at, out })
      } else sourceOut.set(element.id, out)
      out += 2
      return
    }
    const set = sets[setName(element)]
    const innerEnds = ends.slice()
    for (const [terminal, parameter] of description.series) {
      const slot = names.slots.get(`${element.id}\n${parameter}`)!
      if (parameters[slot] === 0) continue
      const place = nodeCount + inner.length
      inner.push(ends[terminal]!)
      series.push({ a: ends[terminal]!, b: place, parameterAt: slot })
      innerEnds[terminal] = place
    }
    const model = description.model!
    // the load's current is the condition's and no parameter
    if (set !== sets.load) touched.push({ part, kind: preparedCode(element.kind), index: derived, parameterAt: at })
    set.terminals.push(...innerEnds)
    set.derivedAt.push(derived)
    set.outAt.push(out)
    if (element.kind === 'npn' || element.kind === 'pnp') polarity.push(element.kind === 'npn' ? 1 : -1)
    for (let t = 0; t < description.terminals; t += 1) pushTerminal(t, out + t)
    derived += model.derived
    out += description.terminals * (description.terminals + 1)
  })

  const branchesFrom = nodeCount + inner.length
  const sources = layOutSources(names, sourceOut, branchesFrom)
  const size = branchesFrom + sources.branchRow.length
  const firstUnknown = 1 + names.pins.length
  const entries = new Entries(size, firstUnknown)
  const diodes = setOf(sets.diode)
  const transistors = setOf(sets.bjt)
  const amplifiers = setOf(sets.amplifier)
  const references = setOf(sets.reference)
  const loads = setOf(sets.load)
  const diagonalEntry = Int32Array.from({ length: branchesFrom - firstUnknown }, (_, k) =>
    entries.place(firstUnknown + k, firstUnknown + k),
  )
  const resistors = layOutResistors(
    plainResistors.map((r) => ({
      a: nodeOf(r.element.nodes[0]),
      b: nodeOf(r.element.nodes[1]),
      parameterAt: r.parameterAt,
    })),
    series,
    plainResistors.map((r) => r.out),
    entries,
  )
  const { stampEntry, stampFrom } = stampDevices(
    [
      [diodes, 2],
      [transistors, 3],
      [amplifiers, 5],
      [references, 3],
      [loads, 2],
    ],
    new Map(series.map(({ a, b }) => [b, a])),
    entries,
  )
  const branchEntries: number[] = []
  const branchSigns: number[] = []
  for (let k = 0; k < sources.branchRow.length; k += 1) {
    const row = sources.branchRow[k]!
    for (const [node, sign] of [
      [sources.branchPlus[k]!, 1],
      [sources.branchMinus[k]!, -1],
    ] as const) {
      branchEntries.push(entries.place(row, node), entries.place(node, row))
      branchSigns.push(sign, sign)
    }
  }

  touched.sort((p, q) => p.part - q.part)
  const start = new Int32Array(names.parts.length + 1)
  for (const item of touched) start[item.part + 1]! += 1
  for (let p = 0; p < names.parts.length; p += 1) start[p + 1]! += start[p]!

  const guess = new Float64Array(size)
  names.nodes.forEach((name, k) => {
    guess[k] = options.guess[name] ?? 0
  })
  guess[0] = 0
  inner.forEach((outside, k) => {
    guess[nodeCount + k] = guess[outside]!
  })

  return {
    size,
    nodeCount,
    firstUnknown,
    guess,
    derivedLength: derived,
    outLength: out,
    partCount: names.parts.length,
    diodes,
    transistors,
    polarity: Float64Array.from(polarity),
    amplifiers,
    references,
    loads,
    fixed: setOf(sets.fixed),
    resistors,
    temperature: {
      start,
      kind: Uint8Array.from(touched, (t) => t.kind),
      index: Int32Array.from(touched, (t) => t.index),
      parameterAt: Int32Array.from(touched, (t) => t.parameterAt),
    },
    sources,
    entryRow: Int32Array.from(entries.rows),
    entryColumn: Int32Array.from(entries.columns),
    stampEntry,
    stampFrom,
    diagonalEntry,
    branchEntries: Int32Array.from(branchEntries),
    branchSigns: Float64Array.from(branchSigns),
    terminalFrom: Int32Array.from(terminalFrom),
    terminalNode: Int32Array.from(terminalNode),
    terminalPart: Int32Array.from(terminalPart),
    thermalResistance: Float64Array.from(names.parts, (part) => options.thermalResistance[part] ?? 0),
  }
}
