/** A sized design made ready to be solved many times: compiled once, tolerances and ratings turned into indices. */
import type { Limit, SizedDesign, StressPoint } from '../topologies/define.ts'
import { type Circuit, type Workspace, compile } from '../solve/index.ts'

/** One parameter that tolerances move: which ones, and by how much at their ends. */
export interface MovedParameter {
  readonly elementId: string
  readonly parameter: string
  readonly slot: number
  /** Index of the part it belongs to. */
  readonly part: number
  readonly effects: readonly { tolerance: number; how: 'add' | 'scale'; low: number; high: number }[]
}

export interface PreparedLimit {
  readonly part: string
  readonly limit: Limit
  /** Reads the stress off a solved workspace. */
  readonly stress: (ws: Workspace) => number
  readonly at: (ws: Workspace, into: StressPoint) => void
}

export interface Prepared {
  readonly design: SizedDesign
  readonly circuit: Circuit
  readonly output: number
  /** Terminal index of the current that the supply delivers. */
  readonly inputTerminal: number
  readonly moved: readonly MovedParameter[]
  /** By tolerance: what it moves of those. */
  readonly movedBy: readonly (readonly MovedParameter[])[]
  readonly limits: readonly PreparedLimit[]
  /** Indices into `Workspace.power` of the bought parts. */
  readonly heatParts: Int32Array
}

/** `like`: prepared designs that may be wired alike, the same variant with other parts say: compiling then costs little. */
export function prepare(design: SizedDesign, ...like: readonly (Prepared | undefined)[]): Prepared {
  const thermalResistance: Record<string, number> = {}
  for (const part of design.parts)
    if (part.thermalResistance !== undefined) thermalResistance[part.id] = part.thermalResistance
  const circuit = compile(
    design.netlist,
    { thermalResistance, guess: design.guess },
    ...like.map((each) => each?.circuit),
  )
  const moved = movedParameters(design, circuit)
  const bought = new Set(design.parts.map((part) => part.id))
  const heatParts = Int32Array.from(circuit.parts.flatMap((id, k) => (bought.has(id) ? [k] : [])))
  return {
    design,
    circuit,
    output: circuit.node(design.output),
    inputTerminal: circuit.terminals[circuit.element('input')]!,
    moved,
    movedBy: design.tolerances.map((_, k) => moved.filter(({ effects }) => effects.some((e) => e.tolerance === k))),
    limits: design.parts.flatMap((part) =>
      part.limits.map((limit) => prepareLimit(circuit, part.id, limit, part.across)),
    ),
    heatParts,
  }
}

/** Where to look for a solution with the output forced to `volts`: what follows the output, or is a share of it, goes with it. */
export function guessAt({ guess, output, follows, divides }: SizedDesign, volts: number): Record<string, number> {
  const regulated = guess[output] ?? volts
  const forced: Record<string, number> = { ...guess, [output]: volts }
  for (const node of follows) if (node in forced) forced[node]! -= regulated - volts
  for (const node of divides) if (node in forced) forced[node]! *= volts / regulated
  return forced
}

/** By parameter, in the order in which the tolerances first name them: which tolerances move it and how far. */
export function movedParameters(design: Pick<SizedDesign, 'tolerances'>, circuit: Circuit): MovedParameter[] {
  const partOf = new Map(circuit.netlist.elements.map(({ id, part }) => [id, part]))
  const bySlot = new Map<number, MovedParameter & { effects: MovedParameter['effects'][number][] }>()
  design.tolerances.forEach((tolerance, index) => {
    for (const { element: elementId, parameter, how, low, high } of tolerance.effects) {
      const slot = circuit.slot(elementId, parameter)
      const moved = bySlot.get(slot) ?? {
        elementId,
        parameter,
        slot,
        part: circuit.part(partOf.get(elementId)!),
        effects: [],
      }
      moved.effects.push({ tolerance: index, how, low, high })
      bySlot.set(slot, moved)
    }
  })
  return [...bySlot.values()]
}

function prepareLimit(
  circuit: Circuit,
  partId: string,
  limit: Limit,
  across: readonly [string, string] | undefined,
): PreparedLimit {
  const part = circuit.part(partId)
  const plus = across ? circuit.node(across[0]) : 0
  const minus = across ? circuit.node(across[1]) : 0
  const at = (ws: Workspace, into: StressPoint): void => {
    into.voltage = Math.abs(ws.voltages[plus]! - ws.voltages[minus]!)
    into.power = ws.power[part]!
    into.junction = ws.junction[part]!
  }
  const measure = limit.measure
  let stress: (ws: Workspace) => number
  switch (measure.of) {
    case 'power':
      stress = (ws) => ws.power[part]!
      break
    case 'junction':
      stress = (ws) => ws.junction[part]!
      break
    case 'voltage': {
      const p = circuit.node(measure.plus)
      const m = circuit.node(measure.minus)
      stress = (ws) => Math.abs(ws.voltages[p]! - ws.voltages[m]!)
      break
    }
    case 'current': {
      const terminal = circuit.terminals[circuit.element(measure.element)]! + measure.terminal
      stress = (ws) => Math.abs(ws.currents[terminal]!)
      break
    }
  }
  return { part: partId, limit, stress, at }
}

/**
 * Puts one board's parameters into a workspace. `board` has one entry a tolerance, from -1 (low) over 0 (nominal) to +1
 * (high). Several effects on one parameter combine: every `scale` multiplies, then every `add` adds.
 */
export function setBoard(prepared: Pick<Prepared, 'circuit' | 'moved'>, ws: Workspace, board: ArrayLike<number>): void {
  setParameters(prepared.circuit, prepared.moved, ws, board)
  ws.stale = true
}

/** The parameters of `moved` alone, as the board has them. */
export function setParameters(
  circuit: Circuit,
  moved: readonly MovedParameter[],
  ws: Workspace,
  board: ArrayLike<number>,
): void {
  for (const { slot, effects } of moved) {
    let factor = 1
    let sum = 0
    for (const { tolerance, how, low, high } of effects) {
      const u = board[tolerance]!
      if (u === 0) continue
      if (how === 'scale') factor *= u === 1 ? high : u === -1 ? low : (u < 0 ? low : high) ** Math.abs(u)
      else sum += (u < 0 ? low : high) * Math.abs(u)
    }
    ws.parameters[slot] = circuit.parameters[slot]! * factor + sum
  }
}
