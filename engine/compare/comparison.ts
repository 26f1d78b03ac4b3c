/** What one comparison is, as it is printed by the headless run and drawn by the page. Every name and meaning is the published contract's. */
import type { Corner, Point } from '../analyses/point.ts'
import type { Curves } from '../analyses/curves.ts'
import type { Element } from '../devices/elements.ts'
import type { TopologyName } from '../topologies/define.ts'
import type { Requirements, Weights } from '../requirements/study.ts'

export type { Condition, Corner, Overrides, Point, ThermalMode } from '../analyses/point.ts'
export type { Curves, Table } from '../analyses/curves.ts'
export type { TopologyName } from '../topologies/define.ts'

export type Verdict = 'meets' | 'falls-short'

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

export interface DerivationLine {
  quantity: string
  symbol: string
  formula: string
  substituted: string
  value: number
  unit: string
  source: string
  why?: string
}

export interface Regulation {
  volts: number
  fraction: number
  frozen: number
  settled: number
}

export interface Figures {
  efficiency: { fullLoad: number; nominal: number; worst: number }
  heat: { worst: number; nominal: number }
  standbyPower: number
  noLoadInputCurrent: number
  output: { lowest: number; nominal: number; highest: number }
  loadRegulation: Regulation
  lineRegulation: Regulation
  minimumInput: number
  headroom: number
  outputResistance: number
  rippleRejectionDb: number
  outputRipple?: number
  temperatureDrift: number
  shortCircuit: { current: number; heat: number; survives: boolean }
  partCount: number
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
  derivation: DerivationLine[]
}

export interface RankingEntry {
  topology: TopologyName
  score: number
  contributions: Record<string, number>
}

export interface Comparison {
  format: 'wattfork-comparison'
  version: 1
  title: string
  requirements: Requirements
  weights: Weights
  designs: Design[]
  ranking: RankingEntry[]
}

/** What the engine says about a figure, so that no screen retypes a label. */
export interface FigureDescriptor {
  name: string
  label: string
  unit: string
  /** `less` where the smaller value is the better one. */
  better: 'less' | 'more'
  help: string
}

/** What the page asks the engine for: the comparison and what its plots need. `stage` says whether the corners are proven yet. */
export interface Answer {
  stage: 'first' | 'proven'
  comparison: Comparison
  /** In the order of `comparison.designs`; absent where there is no circuit. */
  curves: (Curves | undefined)[]
  figures: FigureDescriptor[]
}
