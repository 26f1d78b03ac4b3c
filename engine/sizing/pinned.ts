/** What a user's pins change about an answer: a design without them is none, and the answer names them. */
import { pinText } from '../requirements/pins.ts'
import type { Pins, Refusal, SizedDesign, TopologyName } from '../topologies/index.ts'

/** The first pin that a built design does not hold to, as a reason not to take the design. */
export function unheldPin(design: SizedDesign, pins: Pins): Refusal | undefined {
  for (const [id, pin] of Object.entries(pins)) {
    const part = design.parts.find((each) => each.id === id)
    const got = typeof pin === 'string' ? part?.partNumber : part?.value
    if (got === pin) continue
    const wanted = pinText(design.topology, id, pin)
    return {
      refused: true,
      requirement: `pins.${design.topology}.${id}`,
      required: 1,
      achieved: 0,
      unit: '1',
      because: part
        ? `The ${design.variant} variant cannot use ${wanted} as ${id}.`
        : `The ${design.variant} variant has no ${id} that could be ${wanted}.`,
    }
  }
  return undefined
}

/** `R1 to 470 Ω and Q1 to BD139-10`; empty without pins. */
export function pinsText(topology: TopologyName, pins: Pins): string {
  const each = Object.entries(pins).map(([id, pin]) => `${id} to ${pinText(topology, id, pin)}`)
  return each.length < 2 ? each.join('') : `${each.slice(0, -1).join(', ')} and ${each.at(-1)}`
}
