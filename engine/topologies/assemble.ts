/** Puts fitted parts together into one design. */
import type { DesignPart, Need, Refusal, SizedDesign, TopologyName } from './define.ts'
import { isRefusal } from './define.ts'
import { type Fitted, supplyAndLoad } from './place/fitted.ts'
import type { Worked } from './working.ts'

export interface Assembly {
  readonly topology: TopologyName
  readonly variant: string
  readonly worked: Worked
  readonly fitted: readonly (Fitted | Refusal | undefined)[]
  /** Bought parts that no current flows through, a heatsink say. */
  readonly mechanical?: readonly (DesignPart | undefined)[]
  readonly referenceSpread: number
  readonly guess: Readonly<Record<string, number>>
  readonly assumptions: readonly string[]
  readonly cautions?: readonly string[]
  readonly notEvaluated?: readonly string[]
  readonly follows?: readonly string[]
  readonly divides?: readonly string[]
  readonly mayNotStart?: boolean
}

/** What every design takes for granted. */
const ASSUMPTIONS: readonly string[] = [
  'Still air at the stated ambient; every part is warmed by its own heat alone, not by its neighbours.',
  'The input is a stiff source; wiring has no resistance.',
  'Diode impedances: half of the data sheet maximum is nominal, a quarter and all of it are the corners.',
]

/** What every design warns of. */
const CAUTIONS: readonly string[] = [
  'Parts may be hot enough to burn: check the junction and surface temperatures before touching or enclosing them.',
  'What feeds the input may be derived from the mains; it then needs approved isolation.',
  'Capacitors hold their charge after the input is removed.',
  'These are design estimates. Data sheets, bench measurement, local codes and licensed practice decide.',
]

export function assemble(need: Need, assembly: Assembly): SizedDesign | Refusal {
  const fitted: Fitted[] = []
  for (const each of assembly.fitted) {
    if (isRefusal(each)) return each
    if (each) fitted.push(each)
  }
  const { input, load } = need.requirements
  const mechanical = (assembly.mechanical ?? []).filter((part) => part !== undefined)
  return {
    topology: assembly.topology,
    variant: assembly.variant,
    netlist: {
      ground: '0',
      elements: [...supplyAndLoad(input.nominal, load.nominal), ...fitted.flatMap((f) => f.elements)],
    },
    output: 'out',
    parts: [...fitted.map((f) => f.part), ...mechanical],
    tolerances: fitted.flatMap((f) => f.tolerances),
    referenceSpread: assembly.referenceSpread,
    guess: { in: input.nominal, ...assembly.guess },
    worked: assembly.worked,
    assumptions: [...ASSUMPTIONS, ...assembly.assumptions],
    cautions: [...(assembly.cautions ?? []), ...CAUTIONS],
    notEvaluated: assembly.notEvaluated ?? [],
    follows: assembly.follows ?? [],
    divides: assembly.divides ?? [],
    ...(assembly.mayNotStart ? { mayNotStart: true } : {}),
  }
}
