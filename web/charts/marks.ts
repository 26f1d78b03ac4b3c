/** How each topology is marked in every lane, plot and strip: name, colour token, line and marker. Never colour alone. */
import type { TopologyName } from '../../engine/compare/comparison.ts'

export interface TopologyMark {
  readonly topology: TopologyName
  /** As a title; lower case in the middle of a sentence. */
  readonly name: string
  /** Key of its colour in the theme and name of its CSS token. */
  readonly token: 'shunt' | 'series' | 'feedback'
  /** Dash pattern of its plot line in pixels. */
  readonly dash: 'solid' | readonly number[]
  /** Width of its plot line in pixels. */
  readonly width: number
  readonly marker: 'square' | 'triangle' | 'circle'
}

/** In the order of `Comparison.designs`. */
export const MARKS: readonly TopologyMark[] = [
  { topology: 'shunt', name: 'Shunt', token: 'shunt', dash: [0.1, 4.6], width: 2.7, marker: 'square' },
  { topology: 'series-pass', name: 'Series-pass', token: 'series', dash: [8, 4], width: 2.1, marker: 'triangle' },
  { topology: 'feedback', name: 'Feedback', token: 'feedback', dash: 'solid', width: 2.1, marker: 'circle' },
]

/** The mark of a topology; throws on one without a mark, which is our own bug. */
export function markOf(topology: TopologyName): TopologyMark {
  const mark = MARKS.find((m) => m.topology === topology)
  if (!mark) throw new Error(`charts/marks: no mark for topology "${topology}"`)
  return mark
}
