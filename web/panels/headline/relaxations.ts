/** Where no design meets: which comes closest, and what could be asked less of so that it would. */
import type { Comparison, Design, Shortfall } from '../../../engine/compare/comparison.ts'
import { formatQuantity } from '../../../engine/units/index.ts'
import { markOf } from '../../charts/marks.ts'
import { checkKey, checkWords, missedChecks } from '../lane/checks.ts'

/** One requirement eased to what the design reaches. */
export interface Relaxation {
  /** Where it stands in the requirements, and the value that would do. */
  readonly path: string
  readonly value: number | boolean
  /** As a button says it: "Allow load regulation of 15 %". */
  readonly label: string
}

export interface Closest {
  readonly design: Design
  readonly name: string
  readonly relaxations: readonly Relaxation[]
  /** What it misses that no single number eases, in words. */
  readonly others: readonly string[]
}

/** Two figures, never below the value. */
function roundedUp(value: number): number {
  const step = 10 ** (Math.floor(Math.log10(value)) - 1)
  return Number((Math.ceil(value / step - 1e-9) * step).toPrecision(2))
}

/** The band that holds both ends that the design reaches. */
function band(shortfalls: readonly Shortfall[], voltage: number): Relaxation | undefined {
  const reach = Math.max(...shortfalls.map(({ achieved }) => Math.abs(achieved - voltage) / voltage))
  if (!Number.isFinite(reach) || reach <= 0) return undefined
  const value = roundedUp(reach)
  return {
    path: 'output.tolerance',
    value,
    label: `Allow an output band of ±${formatQuantity(value, 'fraction', 2)}`,
  }
}

function relaxation(key: string, shortfalls: readonly Shortfall[], voltage: number): Relaxation | undefined {
  if (key === 'output') return band(shortfalls, voltage)
  if (key === 'limits.survivesShort') {
    return { path: key, value: false, label: 'Do not ask that it survives a short' }
  }
  const [first] = shortfalls
  if (!key.startsWith('limits.') || !first || !(first.achieved > 0)) return undefined
  const value = roundedUp(Math.max(...shortfalls.map(({ achieved }) => achieved)))
  const unit = first.unit === '%' ? 'fraction' : first.unit
  return { path: key, value, label: `Allow ${checkWords(key)} of ${formatQuantity(value, unit, 2)}` }
}

/** How far a design is off: what no number eases counts most, then how many, then how far beyond the limits. */
function distance({ others, design }: Closest): readonly number[] {
  const beyond = design.shortfalls.map(({ required, achieved }) =>
    required === 0 ? 1 : Math.abs(achieved / required - 1),
  )
  return [others.length, missedChecks(design).length, Math.max(0, ...beyond)]
}

/** What one design that falls short would need to be asked less of. */
export function closeness(
  design: Design,
  voltage: number,
  isAllowed: (path: string, value: number | boolean) => boolean,
): Closest {
  const relaxations: Relaxation[] = []
  const others: string[] = []
  for (const key of missedChecks(design)) {
    const own = design.shortfalls.filter(({ requirement }) => checkKey(requirement) === key)
    const eased = relaxation(key, own, voltage)
    if (eased && isAllowed(eased.path, eased.value)) relaxations.push(eased)
    else others.push(checkWords(key))
  }
  return { design, name: markOf(design.topology).name.toLowerCase(), relaxations, others }
}

/**
 * The closest of the designs that have a circuit; undefined where one meets everything or none can be built. `isAllowed`
 * says whether the requirements may hold a value: what they may not is no way out.
 */
export function closest(
  { designs, requirements }: Comparison,
  isAllowed: (path: string, value: number | boolean) => boolean,
): Closest | undefined {
  if (designs.some(({ verdict }) => verdict === 'meets')) return undefined
  return designs
    .filter(({ circuit }) => circuit)
    .map((design): Closest => closeness(design, requirements.output.voltage, isAllowed))
    .toSorted((a, b) => compareEach(distance(a), distance(b)))[0]
}

function compareEach(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((value, i) => value !== b[i])
  return at < 0 ? 0 : a[at]! - b[at]!
}
