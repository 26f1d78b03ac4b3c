/**
 * A plot of the page as one SVG that needs nothing else: lines, boxes, marks and texts where the page puts them, SVG with its
 * computed styles written into it, canvases drawn anew as SVG, the faces inside. Always light, on white.
 */
import { onPaper, useTheme } from '../look/theme.ts'
import { boxOf, round } from './boxes.ts'
import type { Origin } from './boxes.ts'
import { headOf } from './head.ts'
import { canvasPictures } from './canvasPictures.ts'
import { facesFor, firstFamily, writtenSheets } from './faces.ts'
import type { CopiedPlot } from './plots.ts'
import { escape, textOf } from './texts.ts'

const SVG = 'http://www.w3.org/2000/svg'
/** White around the plot, in pixels. */
const EDGE = 24
const SVG_STYLES = [
  'fill',
  'fill-opacity',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-linecap',
  'stroke-linejoin',
  'stroke-opacity',
  'opacity',
  'visibility',
  'font',
  'text-anchor',
  'dominant-baseline',
  'paint-order',
  'vector-effect',
]

function inlined(source: SVGSVGElement, box: DOMRect, origin: Origin): string {
  const copy = source.cloneNode(true) as SVGSVGElement
  const from = [source, ...source.querySelectorAll('*')]
  const to = [copy, ...copy.querySelectorAll('*')]
  for (const [k, element] of from.entries()) {
    const style = getComputedStyle(element)
    const target = to[k]!
    if (style.display === 'none') target.setAttribute('display', 'none')
    const kept = SVG_STYLES.map((name) => `${name}:${style.getPropertyValue(name)}`)
    target.removeAttribute('class')
    target.setAttribute('style', kept.join(';'))
  }
  copy.setAttribute('x', round(box.left - origin.left))
  copy.setAttribute('y', round(box.top - origin.top))
  copy.setAttribute('width', round(box.width))
  copy.setAttribute('height', round(box.height))
  copy.setAttribute('overflow', getComputedStyle(source).overflow)
  return new XMLSerializer().serializeToString(copy)
}

/** What is collected on the way through a plot. */
interface Drawing {
  readonly origin: Origin
  readonly canvases: ReadonlyMap<Element, () => string>
  /** What lies over the rest, by its `z-index`. */
  readonly raised: string[]
  readonly families: Set<string>
}

function walk(element: Element, drawing: Drawing): string {
  const style = getComputedStyle(element)
  if (style.display === 'none' || style.visibility === 'hidden' || style.opacity === '0') return ''
  if (element.matches('.unseen, button, input')) return ''
  const drawn = drawnOf(element, style, drawing)
  const faded = drawn !== '' && Number(style.opacity) < 1 ? `<g opacity="${style.opacity}">${drawn}</g>` : drawn
  if (!(style.position !== 'static' && Number(style.zIndex) > 0)) return faded
  drawing.raised.push(faded)
  return ''
}

function drawnOf(element: Element, style: CSSStyleDeclaration, drawing: Drawing): string {
  const { origin, canvases } = drawing
  const box = element.getBoundingClientRect()
  const [left, top] = [round(box.left - origin.left), round(box.top - origin.top)]
  if (element instanceof SVGSVGElement) return inlined(element, box, origin)
  const canvas = canvases.get(element)
  if (canvas !== undefined) return canvas().replace('<svg ', `<svg x="${left}" y="${top}" `)
  let drawn = boxOf(style, box, origin, element.parentElement ?? undefined)
  for (const pseudo of ['::before', '::after']) drawn += pseudoBox(element, pseudo, box, origin)
  let inside = ''
  for (const child of element.childNodes) {
    if (child instanceof Text) {
      const text = textOf(child, style, origin)
      if (text !== '') drawing.families.add(firstFamily(style.fontFamily))
      inside += text
    } else if (child instanceof Element) inside += walk(child, drawing)
  }
  const isCut = style.overflowX !== 'visible' && element.scrollWidth > element.clientWidth + 1 && inside !== ''
  if (!isCut) return drawn + inside
  const [width, height] = [round(box.width), round(box.height)]
  return `${drawn}<svg x="${left}" y="${top}" width="${width}" height="${height}" viewBox="${left} ${top} ${width} ${height}">${inside}</svg>`
}

/** Grid lines and ticks hang on pseudo-elements: placed absolutely, in pixels, within an element that holds a place itself. */
function pseudoBox(element: Element, pseudo: string, box: DOMRect, origin: Origin): string {
  const style = getComputedStyle(element, pseudo)
  if (style.content === 'none' || style.position !== 'absolute') return ''
  const px = (name: string) => Number.parseFloat(style.getPropertyValue(name)) || 0
  // offsets count from within the border, and the computed width is that of the content
  const sides = px('border-left-width') + px('border-right-width')
  const ends = px('border-top-width') + px('border-bottom-width')
  const isWhole = style.boxSizing === 'border-box'
  const place = new DOMRect(
    box.left + element.clientLeft + px('left'),
    box.top + element.clientTop + px('top'),
    px('width') + (isWhole ? 0 : sides),
    px('height') + (isWhole ? 0 : ends),
  )
  const drawn = boxOf(style, place, origin)
  return drawn !== '' && Number(style.opacity) < 1 ? `<g opacity="${style.opacity}">${drawn}</g>` : drawn
}

/** Reads the plot as it lies on the page now. */
export async function pictureOf(plot: Omit<CopiedPlot, 'sheets'>): Promise<string> {
  const { element: root } = plot
  const title = plot.title()
  const hosts = [root, ...root.querySelectorAll('*')].flatMap((element) => {
    const load = canvasPictures.get(element)
    return load ? [{ element, load }] : []
  })
  const canvases = new Map(await Promise.all(hosts.map(async ({ element, load }) => [element, await load()] as const)))
  const sheets = await writtenSheets(document)
  const families = new Set([firstFamily(useTheme().sans)])
  const { body, size } = await onPaper((paper) => {
    const head = headOf(title, plot.needsKey ?? false, EDGE, paper)
    const { left, top, width, height } = root.getBoundingClientRect()
    const drawing: Drawing = {
      origin: { left: left - EDGE, top: top - EDGE - head.height },
      canvases,
      raised: [],
      families,
    }
    const drawn = walk(root, drawing)
    return {
      body: head.drawn + drawn + drawing.raised.join(''),
      size: [Math.max(width, head.width) + 2 * EDGE, height + head.height + 2 * EDGE].map((length) => round(length)),
    }
  })
  const letters = new Set(Array.from(body, (letter) => letter.codePointAt(0)!))
  const faces = await facesFor({ families, letters }, sheets)
  return `<svg xmlns="${SVG}" width="${size[0]}" height="${size[1]}" viewBox="0 0 ${size[0]} ${size[1]}" role="img"><title>${escape(title)}</title><style>${faces.join('')}</style><rect width="100%" height="100%" fill="#fff"/>${body}</svg>`
}
