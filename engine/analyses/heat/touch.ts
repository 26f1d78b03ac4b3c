/** Surfaces that burn: published limits, and the caution that a temperature earns. */
import type { Confidence } from '../../parts/define.ts'

/** `glass` stands for ceramics too. */
export type TouchMaterial = 'metal' | 'glass' | 'plastic'

export interface TouchLimit {
  readonly material: TouchMaterial
  /** Degrees Celsius. */
  readonly temperature: number
  /** What happens at it, in words. */
  readonly meaning: string
  readonly source: string
  readonly confidence: Confidence
}

const TABLE_38 = 'IEC 62368-1 table 38, contact of 1 to 10\u202Fs'

/** By material, then by rising temperature. Neither document sets a limit for a part inside an enclosure: they say what skin bears. */
export const TOUCH_LIMITS: readonly TouchLimit[] = [
  {
    material: 'metal',
    temperature: 60,
    meaning: 'hot to the touch, class TS1 ends',
    source: TABLE_38,
    confidence: 'memory',
  },
  {
    material: 'metal',
    temperature: 70,
    meaning: 'smooth bare metal burns skin after about 1\u202Fs',
    source: 'EN 563, figure 2 (now ISO 13732-1), as quoted in a standards mailing list',
    confidence: 'read',
  },
  {
    material: 'glass',
    temperature: 71,
    meaning: 'hot to the touch, class TS1 ends',
    source: TABLE_38,
    confidence: 'memory',
  },
  {
    material: 'glass',
    temperature: 81,
    meaning: 'class TS2 ends: keep it out of reach',
    source: TABLE_38,
    confidence: 'memory',
  },
  {
    material: 'plastic',
    temperature: 77,
    meaning: 'hot to the touch, class TS1 ends',
    source: TABLE_38,
    confidence: 'read',
  },
  {
    material: 'plastic',
    temperature: 87,
    meaning: 'class TS2 ends: keep it out of reach',
    source: TABLE_38,
    confidence: 'memory',
  },
]

/** The highest limit of the material that a surface temperature in °C passes; undefined where it passes none. */
export function touchLimit(material: TouchMaterial, temperature: number): TouchLimit | undefined {
  return TOUCH_LIMITS.findLast((limit) => limit.material === material && temperature >= limit.temperature)
}
