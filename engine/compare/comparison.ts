/** What one comparison is, as it is printed by the headless run and drawn by the page. Every name and meaning is the published contract's. */
import type { Corner, Point } from '../analyses/point.ts'
import type { Curves } from '../analyses/curves.ts'
import type { Element } from '../devices/elements.ts'
import type { Tree } from '../formula/index.ts'
import type { FigureDescriptor, Figures } from '../figures/index.ts'
import type { Shortfall } from '../sizing/judge.ts'
import type { Domination } from './dominated.ts'
import type { RankingEntry } from './ranking.ts'
import type { WeightLimits } from './weights.ts'
import type { TopologyName } from '../topologies/define.ts'
import type { WorkedLine } from '../topologies/working.ts'
import type { Assumptions, PinsByTopology, ProfileRow, Requirements, Weights } from '../requirements/study.ts'

export type { Condition, Corner, Overrides, Point, ThermalMode } from '../analyses/point.ts'
export type { Curves, Table } from '../analyses/curves.ts'
export type { FigureDescriptor, Figures, Regulation } from '../figures/index.ts'
export type { Tree } from '../formula/index.ts'
export type { WorkedLine } from '../topologies/working.ts'
export type { Domination } from './dominated.ts'
export type { RankingEntry } from './ranking.ts'
export type { WeightLimit, WeightLimits } from './weights.ts'
export type { Shortfall } from '../sizing/judge.ts'
export type { TopologyName } from '../topologies/define.ts'

export type Verdict = 'meets' | 'falls-short'

export interface Part {
  id: string
  role: string
  value?: number
  unit?: string
  partNumber?: string
  /** What the maker allows, by quantity, in SI (`power`, `current`, `voltage`, `junction`). */
  ratings: Record<string, number>
  /** The worst that the solved corners ask of it, by the same quantities. */
  stress: Record<string, number>
  /** 1 - stress / derated rating, the smallest over the part's ratings. */
  margin: number
  source?: string
  /** `read` (seen in the named source), `memory`, `derived` or `assumption`. */
  confidence?: string
  note?: string
}

export interface Design {
  topology: TopologyName
  variant: string
  /** Why this variant and not a simpler or a fuller one. */
  variantBecause: string
  verdict: Verdict
  shortfalls: Shortfall[]
  notEvaluated: string[]
  unsolved: { condition: string; outcome: string }[]
  assumptions: string[]
  cautions: string[]
  parts: Part[]
  partCount: number
  circuit?: { ground: string; elements: Element[] }
  operatingPoints?: Point[]
  worst?: Record<string, Corner>
  figures?: Figures
  derivation: WorkedLine[]
}

export interface Comparison {
  format: 'wattfork-comparison'
  version: 1
  title: string
  requirements: Requirements
  /** What cost, area and failure rate go by; with defaults, and the study's own numbers alone. */
  assumptions: Assumptions
  weights: Weights
  /** What the user pinned; absent where nothing is. */
  pins?: PinsByTopology
  /** As the study has it. */
  profile?: ProfileRow[]
  designs: Design[]
  ranking: RankingEntry[]
  /** How far each weight may move before another design comes first. */
  weightLimits: WeightLimits
  /** Designs that another one leaves no reason for. */
  dominated: Domination[]
}

/** What the page asks the engine for: the comparison and what its plots need. `stage` says whether the corners are proven yet. */
export interface Answer {
  stage: 'first' | 'proven'
  comparison: Comparison
  /** In the order of `comparison.designs`; absent where there is no circuit. */
  curves: (Curves | undefined)[]
  /** In the order of `comparison.designs` and of each one's derivation: the formulas as they are set, null where a line has none. */
  formulas: (readonly (Tree | null)[])[]
  figures: FigureDescriptor[]
}
