/**
 * What a current limiter changes about a shorted output: the design as it is, with a sense resistor in the emitter lead of its
 * pass transistor and a transistor that steals the base drive, sized by the same steps as in the variants that have one.
 */
import type { Element } from '../../devices/elements.ts'
import { DERATING } from '../../parts/derating/index.ts'
import type { Requirements } from '../../requirements/study.ts'
import { REQUIRED, requiredGivens } from '../../topologies/common.ts'
import type { DesignPart, Limit, Need, SizedDesign } from '../../topologies/define.ts'
import { isRefusal } from '../../topologies/define.ts'
import { chooserFor } from '../../topologies/index.ts'
import { LIMITER_GIVENS, fitLimiter, limiterSteps, limiterThreshold } from '../../topologies/place/limiter.ts'
import { defineWorking } from '../../topologies/working.ts'

const IDS = { transistor: 'Qlim', resistor: 'Rlim' } as const
const WORKING = defineWorking('limiter added', [...REQUIRED, ...LIMITER_GIVENS], limiterSteps(IDS.resistor))
/** Least base drive in amperes that the threshold is taken at. Own approximation, no source. */
const LEAST_DRIVE = 1e-3
/** Volts across the sense resistor near its threshold: where the solver looks for the sense node first. */
const SENSED = 0.4

export const passOf = ({ parts }: SizedDesign): DesignPart | undefined =>
  parts.find(({ role }) => role.startsWith('pass transistor'))

export const limiterOf = ({ parts }: SizedDesign): DesignPart | undefined =>
  parts.find(({ role }) => role === 'current limiter')

export interface Limited {
  readonly design: SizedDesign
  /** Ohms of the sense resistor. */
  readonly sense: number
}

/** Undefined where there is nothing to limit, a limiter already, or no part for one. */
export function withLimiter(design: SizedDesign, requirements: Requirements): Limited | undefined {
  const pass = passOf(design)
  if (!pass || limiterOf(design)) return undefined
  const need: Need = { requirements, policy: DERATING[requirements.derating], pins: {} }
  const drive = Math.max(design.worked.value('IB_max'), LEAST_DRIVE)
  const worked = WORKING.run(
    { ...requiredGivens(requirements), ...limiterThreshold(need, IDS, drive) },
    chooserFor(need),
  )
  const fitted = fitLimiter(need, IDS, worked, {}).flatMap((each) => (isRefusal(each) ? [] : [each]))
  if (fitted.length < 2) return undefined
  const { netlist, guess, output } = design
  return {
    sense: worked.value('R_sc'),
    design: {
      ...design,
      netlist: {
        ...netlist,
        elements: [
          ...netlist.elements.map((e) => (e.part === pass.id ? movedTo('sense', e, output) : e)),
          ...fitted.flatMap(({ elements }) => elements),
        ],
      },
      parts: [
        ...design.parts.map((part) => (part.id === pass.id ? movedPart('sense', part, output) : part)),
        ...fitted.map(({ part }) => part),
      ],
      tolerances: [...design.tolerances, ...fitted.flatMap(({ tolerances }) => tolerances)],
      guess: { ...guess, sense: (guess[output] ?? 0) + SENSED, base: (guess['base'] ?? 0) + SENSED },
      follows: [...new Set([...design.follows, 'base', 'sense'])],
    },
  }
}

const moved = (node: string, from: string, to: string): string => (node === from ? to : node)

function movedTo(to: string, element: Element, from: string): Element {
  return { ...element, nodes: element.nodes.map((node) => moved(node, from, to)) } as unknown as Element
}

function movedPart(to: string, part: DesignPart, from: string): DesignPart {
  const { across } = part
  return {
    ...part,
    ...(across ? { across: [moved(across[0], from, to), moved(across[1], from, to)] as const } : {}),
    limits: part.limits.map((limit): Limit => {
      const { measure } = limit
      if (measure.of !== 'voltage') return limit
      return {
        ...limit,
        measure: { ...measure, plus: moved(measure.plus, from, to), minus: moved(measure.minus, from, to) },
      }
    }),
  }
}
