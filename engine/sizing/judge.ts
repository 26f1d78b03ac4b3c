/** Holds a proof against the requirements: every limit that is not met, with its number, its cause and its corner. */
import { type Corner, cornerOf, thermalName } from '../analyses/point.ts'
import { type Proof, worseOf } from '../analyses/prove.ts'
import type { Found } from '../analyses/search.ts'
import type { Observer } from '../analyses/observe.ts'
import { COLD, OUTCOMES, type OutcomeName } from '../solve/index.ts'
import { capital, formatQuantity } from '../units/index.ts'
import { stressOf } from '../analyses/ratings.ts'
import { OUTCOME_WORDS, QUANTITY_WORDS, REMEDIES, whereabouts } from './words.ts'

export interface Shortfall {
  /** Path of the requirement or the rating that is not met, e.g. `limits.loadRegulation` or `D1.power`. */
  requirement: string
  required: number
  achieved: number
  unit: string
  /** One sentence: what, how much, against which limit, and what would help. */
  because: string
  /** Absent where the shortfall is not a matter of one operating point. */
  corner?: Corner
}

/** A shortfall before its corner is read out in full. `severity`: how many times over the limit, 0 at the limit. */
export interface Finding {
  shortfall: Shortfall
  severity: number
  found?: Found
  /** Whose conditions `found` speaks of, where not the proof's own. */
  observer?: Observer
}

/** Rounding of the search must not turn an exact hit into a miss. */
const SLACK = 1e-9

export function judge(proof: Proof): Finding[] {
  return [
    ...judgeOutput(proof),
    ...judgeLimits(proof),
    ...judgeParts(proof),
    ...judgeStart(proof),
    ...judgeSolved(proof),
  ]
}

/** The shortfall with its corner attached, for handing out. */
export function withCorner(proof: Proof, { shortfall, found, observer }: Finding): Shortfall {
  const corner = found && cornerOf(observer ?? proof.observer, found)
  return corner ? { ...shortfall, corner } : shortfall
}

const where = ({ observer }: { observer: Observer }, found: Found): string => {
  const state = found.mode === COLD ? ', at the cold start' : ''
  return whereabouts(observer.conditions[found.condition]!) + state
}

/** The output band alone, which the first part of a proof already knows. */
export function judgeOutput(proof: Pick<Proof, 'observer' | 'output' | 'requirements'>): Finding[] {
  const { voltage, tolerance } = proof.requirements.output
  const findings: Finding[] = []
  const { lowest, highest } = proof.output
  const low = voltage * (1 - tolerance)
  const high = voltage * (1 + tolerance)
  const off = (found: Found, required: number, verb: string, which: string): void => {
    findings.push({
      shortfall: {
        requirement: `output.${which}`,
        required,
        achieved: found.value,
        unit: 'V',
        because: `${capital(where(proof, found))} the output ${verb} ${formatQuantity(found.value, 'V')}; the band ends at ${formatQuantity(required, 'V')}. Widen the band, or narrow what moves it: input, load, ambient, tolerances.`,
      },
      severity: Math.abs(found.value - required) / (voltage * tolerance),
      found,
    })
  }
  if (lowest.value < low * (1 - SLACK)) off(lowest, low, 'sinks to', 'lowest')
  if (highest.value > high * (1 + SLACK)) off(highest, high, 'rises to', 'highest')
  return findings
}

function judgeLimits(proof: Proof): Finding[] {
  const { limits, output } = proof.requirements
  // feedback is the stiffest there is: where it fails, it has run out of headroom
  const stiffer =
    proof.design.topology === 'feedback'
      ? 'Allow more, or raise the lowest input.'
      : 'Allow more, or choose a stiffer topology.'
  const findings: Finding[] = []
  const over = (
    name: string,
    words: string,
    found: Found | undefined,
    value: number,
    limit: number,
    unit: string,
  ): void => {
    if (!found || value <= limit * (1 + SLACK)) return
    findings.push({
      shortfall: {
        requirement: `limits.${name}`,
        required: limit,
        achieved: value,
        unit,
        because: `${words} is ${formatQuantity(value, unit)} ${where(proof, found)} (${thermalName(found.mode)}); the limit is ${formatQuantity(limit, unit)}. ${stiffer}`,
      },
      severity: limit > 0 ? value / limit - 1 : 1,
      found,
    })
  }
  // what is not limited is not read: a lean proof may not have searched for it
  if (limits.loadRegulation !== undefined) {
    const load = worseOf(proof.loadRegulation)
    over('loadRegulation', 'Load regulation', load, load.value / output.voltage, limits.loadRegulation, '%')
  }
  if (limits.lineRegulation !== undefined) {
    const line = worseOf(proof.lineRegulation)
    over('lineRegulation', 'Line regulation', line, line.value / output.voltage, limits.lineRegulation, '%')
  }
  if (limits.outputRipple !== undefined) {
    const ripple = proof.outputRipple
    over('outputRipple', 'Output ripple', ripple, ripple?.value ?? 0, limits.outputRipple, 'V')
  }
  if (limits.survivesShort) findings.push(...judgeShort(proof))
  return findings
}

function judgeShort(proof: Proof): Finding[] {
  const { shortCircuit } = proof.strained
  const { observer } = shortCircuit
  if (!shortCircuit.settles)
    return [
      {
        shortfall: {
          requirement: 'limits.survivesShort',
          required: 1,
          achieved: 0,
          unit: '1',
          because: `With the output shorted, ${formatQuantity(shortCircuit.current.value, 'A')} flow at first and no temperature settles: a part burns. Add a limiter or a fuse.`,
        },
        severity: 1,
      },
    ]
  let worst: Found | undefined
  let index = -1
  shortCircuit.use.forEach((found, k) => {
    if (found.value > 1 + SLACK && (!worst || found.value > worst.value)) {
      worst = found
      index = k
    }
  })
  if (!worst) return []
  const { part, limit } = observer.prepared.limits[index]!
  const { stress, allowed } = stressOf(observer, index, worst)
  return [
    {
      shortfall: {
        requirement: 'limits.survivesShort',
        required: allowed,
        achieved: stress,
        unit: limit.unit,
        because: `With the output shorted ${part} ${QUANTITY_WORDS[limit.quantity] ?? 'takes'} ${formatQuantity(stress, limit.unit)}; its maker allows ${formatQuantity(allowed, limit.unit)}. Add a limiter or a fuse, or give up the requirement.`,
      },
      severity: worst.value - 1,
      found: worst,
      observer,
    },
  ]
}

function judgeParts(proof: Proof): Finding[] {
  const findings: Finding[] = []
  const heated = new Set<string>()
  proof.strained.limits.forEach((found, k) => {
    if (!(found.value > 1 + SLACK)) return
    const { part, limit } = proof.observer.prepared.limits[k]!
    // A diode's allowed heat is its junction limit in other units: one cause, one shortfall.
    if (limit.quantity === 'power') heated.add(part)
    if (limit.quantity === 'junction' && heated.has(part)) return
    const { stress, allowed } = stressOf(proof.observer, k, found)
    const compare = limit.sense === 'max' ? 'its derated rating allows' : 'it needs'
    findings.push({
      shortfall: {
        requirement: `${part}.${limit.quantity}`,
        required: Number.isFinite(allowed) ? allowed : 0,
        achieved: stress,
        unit: limit.unit,
        because:
          `${capital(where(proof, found))} ${part} ${QUANTITY_WORDS[limit.quantity] ?? 'takes'} ${formatQuantity(stress, limit.unit)}; ${compare} ${formatQuantity(allowed, limit.unit)}. ${REMEDIES[limit.quantity] ?? ''}`.trim(),
      },
      severity: Number.isFinite(found.value) ? found.value - 1 : 10,
      found,
    })
  })
  return findings
}

/** The start alone. It is judged cold: a revision, which changes ratings and cooling, leaves it as good as it is. */
export function judgeStart({ startUp, requirements }: Pick<Proof, 'startUp' | 'requirements'>): Finding[] {
  if (startUp && startUp.unsolved > 0)
    return [
      {
        shortfall: {
          requirement: 'start-up',
          required: 0,
          achieved: startUp.unsolved,
          unit: '1',
          because: `Start-up could not be proven: ${startUp.unsolved} of its points have no solution that could be found.`,
        },
        severity: 1,
      },
    ]
  if (!startUp || startUp.surplus > 0) return []
  return [
    {
      shortfall: {
        requirement: 'start-up',
        required: 0,
        achieved: startUp.surplus,
        unit: 'A',
        because: `At ${formatQuantity(startUp.input, 'V')} in and ${formatQuantity(startUp.ambient, '°C')} the output can rest at ${formatQuantity(startUp.output, 'V')}: the circuit delivers ${formatQuantity(-startUp.surplus, 'A')} less there than the load of ${formatQuantity(requirements.load.max, 'A')} takes. Raise the lowest input, or start into a lighter load.`,
      },
      severity: -startUp.surplus / requirements.load.max,
    },
  ]
}

function judgeSolved({ unsolved, observer }: Proof): Finding[] {
  const first = unsolved[0]
  if (!first) return []
  const outcome = OUTCOMES[first.outcome] as Exclude<OutcomeName, 'converged'>
  const cause =
    outcome === 'thermalRunaway'
      ? 'no temperature settles: the parts run away thermally'
      : `the circuit has no solution that could be found: ${OUTCOME_WORDS[outcome]}`
  return [
    {
      shortfall: {
        requirement: 'solution',
        required: 0,
        achieved: unsolved.length,
        unit: '1',
        because: `${capital(whereabouts(observer.conditions[first.condition]!))} ${cause}.`,
      },
      severity: 5,
    },
  ]
}
