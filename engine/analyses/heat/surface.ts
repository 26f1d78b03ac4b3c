/** The surface of a part that a finger meets, and how hot it is. */
import type { DesignPart, HeatNode } from '../../topologies/define.ts'
import type { PathNode } from './path.ts'
import { type TouchLimit, type TouchMaterial, touchLimit } from './touch.ts'

export interface Surface {
  at: HeatNode
  material: TouchMaterial
  /** Degrees Celsius at the part's own worst corner. */
  temperature: number
  /** True where the surface is only known to be no hotter: a junction inside a package of unknown resistance. */
  atMost: boolean
  /** The highest published limit that it passes. */
  limit?: TouchLimit
}

const METAL_TABS = ['TO-126', 'TO-220', 'TO-3', 'DPAK TO-252', 'SOT-223']

/** The outermost place before the air that belongs to the part itself: the heatsink, the case, the body; else the junction bounds it. */
export function surfaceOf(part: DesignPart, nodes: readonly PathNode[]): Surface {
  const of = (at: HeatNode): PathNode | undefined => nodes.find((node) => node.at === at)
  const outer = of('sink') ?? of('case') ?? of('body') ?? nodes[0]!
  const material = materialOf(part, outer.at)
  const limit = touchLimit(material, outer.temperature)
  return {
    at: outer.at,
    material,
    temperature: outer.temperature,
    atMost: outer.at === 'junction',
    ...(limit ? { limit } : {}),
  }
}

/** Where it is not known which, the material that burns sooner. Own classification, no source. */
function materialOf({ package: housing = '' }: DesignPart, at: HeatNode): TouchMaterial {
  if (at === 'sink' || METAL_TABS.includes(housing)) return 'metal'
  return at === 'body' || housing.startsWith('DO-') ? 'glass' : 'plastic'
}
