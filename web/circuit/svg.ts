/** A circuit as an SVG file of its own: colours and type inside, dark on white, to be told apart in black and white too. */
import { capital } from '../../engine/units/index.ts'
import type { Design } from '../../engine/compare/comparison.ts'
import { markOf } from '../charts/marks.ts'
import { escaped, markupText } from '../look/markup.ts'
import { drawnCircuit } from './drawn.ts'
import type { Live } from './live.ts'
import { pictureOf } from './picture.ts'
import type { Box } from './symbols.ts'
import { type Tint, tintOf } from './tint.ts'

export interface SvgChoice {
  /** Voltages, currents and heat written beside the symbols. */
  readonly live?: Live | undefined
  /** Parts tinted by their most used rating. */
  readonly isTinted?: boolean
  /** What the values are of, for whoever opens the file: "9.00 V in, full load". */
  readonly at?: string | undefined
  /** Names alone beside the symbols, larger. */
  readonly isBrief?: boolean
}

/** Depths of tint from light to dark, so that they stay in order without colour. */
const HEAT = ['#fbe9e0', '#f6cdb8', '#efa887', '#e4845a']
const INK = ['#f2f4f4', '#e2e6e6', '#c8cfcf', '#a9b3b3']

/** Selector and declarations. Each selector is held within the drawing, as the file may be set into another document. */
const RULES: readonly (readonly [selector: string, declarations: string])[] = [
  ['text', "font-family:'Sofia Sans Semi Condensed','DIN Next','Arial Narrow',Arial,sans-serif;fill:#122326"],
  ['.wire', 'fill:none;stroke:#122326;stroke-width:1.25;stroke-linecap:square'],
  ['.line', 'fill:none;stroke:#122326;stroke-width:1.5'],
  ['.terminal', 'fill:#fff;stroke:#122326;stroke-width:1.5'],
  ['.dot', 'fill:#122326'],
  ['.solid', 'fill:#122326'],
  ['.reach', 'fill:none'],
  ['.name', 'font-weight:700'],
  ['.type', 'fill:#48595c'],
  ['.heat', 'fill:#a83a05'],
  ['.over', 'stroke:#122326;stroke-width:1.5;stroke-dasharray:3 2'],
  ...HEAT.map((fill, k) => [`.heat${k}`, `fill:${fill}`] as const),
  ...INK.map((fill, k) => [`.ink${k}`, `fill:${fill}`] as const),
]
const SCOPE = 'circuit-drawing'
const STYLE = RULES.map(([selector, declarations]) => `.${SCOPE} ${selector}{${declarations}}`).join('')

export const viewBoxOf = ({ left, top, right, bottom }: Box): string =>
  [left, top, right - left, bottom - top].map((n) => Math.round(n * 100) / 100).join(' ')

export const tintsOf = ({ parts }: Pick<Design, 'parts'>): Map<string, Tint> =>
  new Map(
    parts.flatMap((part): [string, Tint][] => {
      const tint = tintOf(part)
      return tint ? [[part.id, tint]] : []
    }),
  )

/** Undefined for a design without a circuit. */
export function circuitSvg(design: Design, choice: SvgChoice = {}): string | undefined {
  if (!design.circuit) return undefined
  const drawing = drawnCircuit(design.circuit, design.parts, choice.isBrief === true)
  const shapes = pictureOf(drawing, { live: choice.live, tints: choice.isTinted ? tintsOf(design) : undefined })
  const { left, top, right, bottom } = drawing.extent
  const title = `${markOf(design.topology).name}: ${capital(design.variant)}${choice.at ? `, ${choice.at}` : ''}`
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="${SCOPE}" viewBox="${viewBoxOf(drawing.extent)}" width="${Math.ceil(right - left)}" height="${Math.ceil(bottom - top)}" role="img">`,
    `<title>${escaped(title)}</title><style>${STYLE}</style>`,
    `<rect x="${left}" y="${top}" width="${right - left}" height="${bottom - top}" fill="#fff"/>`,
    ...shapes.map(markupText),
    '</svg>',
  ].join('')
}
