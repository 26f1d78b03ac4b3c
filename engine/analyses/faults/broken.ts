/** A design with one fault in it, as a design of its own that can be compiled and solved like any other. */
import type { Element } from '../../devices/elements.ts'
import type { DesignPart, SizedDesign } from '../../topologies/define.ts'
import type { FaultKind } from '../../topologies/faults.ts'
import { guessAt } from '../prepare.ts'

/** Ohms of a short: small beside everything else here, and still a resistor that any solver can handle. */
export const SHORT_OHMS = 1e-3

export interface BrokenDesign {
  /** Its tolerances are those of the whole design, entry by entry; those of a part that is gone do nothing. */
  readonly design: SizedDesign
  /** The part that failed; its ratings are not held against anything any more. */
  readonly part?: DesignPart
  /** Ids of elements that the fault takes out of the circuit. */
  readonly removed: readonly string[]
  /** Elements that the fault puts into the circuit. */
  readonly added: readonly Element[]
}

/** Undefined where the design has no such part. `input` in volts says where a lost output may rest. */
export function breakDesign(design: SizedDesign, kind: FaultKind, input: number): BrokenDesign | undefined {
  const { role } = kind
  const part = role && design.parts.find((each) => role.test(each.role))
  if (role && !part) return undefined
  const guess = guessFor(design, kind, input)
  if (!part) return { design: { ...design, guess }, removed: [], added: [] }
  const { elements } = design.netlist
  const removed = kind.how === 'opened' ? elements.filter((e) => e.part === part.id).map(({ id }) => id) : []
  const added = kind.how === 'shorted' ? [shortAcross(part)] : []
  return { design: { ...changed(design, removed, added, part.id), guess }, part, removed, added }
}

/** The circuit without some elements and with others; the part `failed` warms no more and has no ratings left. */
function changed(
  design: SizedDesign,
  removed: readonly string[],
  added: readonly Element[],
  failed: string,
): SizedDesign {
  const gone = new Set(removed)
  const { netlist, parts, tolerances } = design
  return {
    ...design,
    netlist: { ...netlist, elements: [...netlist.elements.filter(({ id }) => !gone.has(id)), ...added] },
    parts: parts.map((each): DesignPart => {
      if (each.id !== failed) return each
      const { thermalResistance: _, ...rest } = each
      return { ...rest, limits: [] }
    }),
    tolerances: tolerances.map((each) => ({
      ...each,
      effects: each.effects.filter(({ element }) => !gone.has(element)),
    })),
  }
}

function shortAcross({ id, across }: DesignPart): Element {
  if (!across) throw new Error(`faults: ${id} does not say between which nodes it lies`)
  return { kind: 'resistor', id: `${id}.short`, nodes: across, part: id, ohms: SHORT_OHMS }
}

/** Volts that a follower loses between input and output when it is driven as hard as it can be. */
const FOLLOWER_LOSS = 1

function guessFor(design: SizedDesign, { near, how }: FaultKind, input: number): Record<string, number> {
  if (near === 'zero') return guessAt(design, 0)
  if (near === 'input') return guessAt(design, how === 'shorted' ? input : input - FOLLOWER_LOSS)
  return { ...design.guess }
}
