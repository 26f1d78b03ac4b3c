/** One sized topology as the comparison prints it. */
import type { Assumptions } from '../requirements/study.ts'
import type { Element } from '../devices/elements.ts'
import type { Observer } from '../analyses/observe.ts'
import { stressOf } from '../analyses/ratings.ts'
import { type Corner, type Point, cornerOf, solvedPoint } from '../analyses/point.ts'
import { type Proof, worseOf } from '../analyses/prove.ts'
import type { Found } from '../analyses/search.ts'
import { figuresOf } from '../figures/index.ts'
import { type Sized, type Unbuilt, isUnbuilt } from '../sizing/size.ts'
import { withCorner } from '../sizing/judge.ts'
import { whereabouts } from '../sizing/words.ts'
import { OUTCOMES, SETTLED } from '../solve/index.ts'
import type { TopologyName } from '../topologies/index.ts'
import type { Design, Part } from './comparison.ts'

export function designOf(topology: TopologyName, sized: Sized | Unbuilt, assumptions: Assumptions): Design {
  if (isUnbuilt(sized)) return unbuilt(topology, sized)
  const { proof, variant, findings, because } = sized
  const { design } = proof
  const figures = figuresOf(proof, assumptions)
  return {
    topology,
    variant: variant.name,
    variantBecause: because,
    verdict: findings.length === 0 ? 'meets' : 'falls-short',
    shortfalls: findings.map((finding) => withCorner(proof, finding)),
    notEvaluated: [...design.notEvaluated],
    unsolved: unsolvedOf(proof),
    assumptions: [...design.assumptions],
    cautions: [...design.cautions],
    parts: partsOf(proof),
    partCount: design.parts.length,
    circuit: { ground: design.netlist.ground, elements: design.netlist.elements.map(plain) },
    operatingPoints: operatingPoints(proof),
    worst: worstOf(proof),
    ...(figures ? { figures } : {}),
    derivation: design.worked.lines(),
  }
}

function unbuilt(topology: TopologyName, { variant, refusal }: Unbuilt): Design {
  const { requirement, required, achieved, unit, because } = refusal
  return {
    topology,
    variant: variant.name,
    variantBecause: 'Nothing could be built for these requirements; this is the simplest variant.',
    verdict: 'falls-short',
    shortfalls: [{ requirement, required, achieved, unit, because }],
    notEvaluated: [],
    unsolved: [],
    assumptions: [],
    cautions: [],
    parts: [],
    partCount: 0,
    derivation: [],
  }
}

/** A source that doubles with temperature is printed as a plain one: its value at each corner is in that corner's overrides. */
function plain(element: Element): Element {
  if (element.kind !== 'current-source') return element
  const { doublesEvery: _, tnom: __, ...rest } = element
  return rest
}

function partsOf(proof: Proof): Part[] {
  const limits = proof.observer.prepared.limits
  return proof.design.parts.map(({ id, role, value, unit, partNumber, source, confidence, note }) => {
    const ratings: Record<string, number> = {}
    const stress: Record<string, number> = {}
    let use = 0
    limits.forEach(({ part, limit }, k) => {
      if (part !== id) return
      ratings[limit.quantity] = limit.rating
      stress[limit.quantity] = stressOf(proof.observer, k, proof.limits[k]!).stress
      use = Math.max(use, Math.min(proof.limits[k]!.value, 1e6))
    })
    const known = { value, unit, partNumber, source, confidence, note }
    return {
      id,
      role,
      ...(Object.fromEntries(Object.entries(known).filter(([, v]) => v !== undefined)) as Partial<Part>),
      ratings,
      stress,
      margin: 1 - use,
    }
  })
}

const distinct = (range: { min: number; nominal: number; max: number }): number[] => [
  ...new Set([range.min, range.nominal, range.max]),
]

/** Every distinct combination of lowest, nominal and highest input and load, at nominal ambient, nominal parts, settled. */
function operatingConditions({ observer, requirements }: Proof): number[] {
  const { input, load, ambient } = requirements
  return distinct(input).flatMap((v) => distinct(load).map((i) => observer.condition(v, i, ambient.nominal)))
}

function operatingPoints(proof: Proof): Point[] {
  const board = new Int8Array(proof.design.tolerances.length)
  return operatingConditions(proof).flatMap((index) => solvedPoint(proof.observer, board, index, SETTLED) ?? [])
}

function unsolvedOf(proof: Proof): Design['unsolved'] {
  const { observer, shortCircuit } = proof
  const entries: Design['unsolved'] = []
  const add = ({ conditions }: Observer, index: number, outcome: number): void => {
    if (outcome !== 0) entries.push({ condition: whereabouts(conditions[index]!), outcome: OUTCOMES[outcome]! })
  }
  for (const { condition, outcome } of proof.unsolved) add(observer, condition, outcome)
  const board = new Int8Array(proof.design.tolerances.length)
  for (const index of operatingConditions(proof)) add(observer, index, observer.observe(board, index, SETTLED).outcome)
  if (!shortCircuit.settles)
    shortCircuit.observer.conditions.forEach((condition, index) => {
      if (condition.fault)
        add(shortCircuit.observer, index, shortCircuit.observer.observe(board, index, SETTLED).outcome)
    })
  return entries.filter(
    (e, k) => entries.findIndex((f) => f.condition === e.condition && f.outcome === e.outcome) === k,
  )
}

function worstOf(proof: Proof): Record<string, Corner> {
  const { observer, minimumInput, requirements, shortCircuit } = proof
  const found: Record<string, Found | undefined> = {
    'output.lowest': proof.output.lowest,
    'output.highest': proof.output.highest,
    'heat.worst': proof.heat,
    'efficiency.worst': proof.efficiency,
    loadRegulation: worseOf(proof.loadRegulation),
    lineRegulation: worseOf(proof.lineRegulation),
    outputRipple: proof.outputRipple,
    minimumInput: {
      value: minimumInput.value,
      board: minimumInput.board,
      condition: observer.condition(minimumInput.value, requirements.load.max, minimumInput.ambient),
      mode: minimumInput.mode,
    },
  }
  observer.prepared.limits.forEach(({ part, limit }, k) => {
    found[`${part}.${limit.quantity}`] = proof.limits[k]
  })
  const short = Number.isNaN(shortCircuit.current.value)
    ? undefined
    : cornerOf(shortCircuit.observer, shortCircuit.current)
  const corners = Object.fromEntries(
    Object.entries(found).flatMap(([name, f]) => {
      const corner = f && cornerOf(observer, f)
      return corner ? [[name, corner]] : []
    }),
  )
  return short ? { ...corners, shortCircuit: short } : corners
}
