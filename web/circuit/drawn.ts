/** The drawing of a circuit, kept while its wiring and its texts stay: laying it out takes longer than a frame. */
import type { Drawing } from './layout.ts'
import { drawCircuit } from './layout.ts'
import type { ListedPart } from './lettering.ts'
import { BRIEF_LETTERING, fullLettering } from './lettering.ts'
import type { Circuit } from './parts.ts'
import { drawnParts } from './parts.ts'

/** Drawings kept: three designs in both letterings, and those before the last edit. */
const KEPT = 12

const drawings = new Map<string, Drawing>()

export function drawnCircuit(circuit: Circuit, parts: readonly ListedPart[], isBrief: boolean): Drawing {
  const lettering = isBrief ? BRIEF_LETTERING : fullLettering(parts)
  const wiring = circuit.elements.map(({ id, part, kind, nodes }) => [id, part, kind, ...nodes])
  const texts = drawnParts(circuit).map((part) => lettering.linesOf(part).map(({ text }) => text))
  const key = JSON.stringify([circuit.ground, wiring, texts])
  const known = drawings.get(key)
  const drawing = known ?? drawCircuit(circuit, lettering)
  // the one used last is dropped last
  drawings.delete(key)
  drawings.set(key, drawing)
  if (drawings.size > KEPT) drawings.delete(drawings.keys().next().value!)
  return drawing
}

export const widthOf = ({ extent }: Drawing): number => extent.right - extent.left
