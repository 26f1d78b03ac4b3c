/**
 * A plot of the page as one SVG that needs nothing else: lines, boxes and texts where the page puts them, SVG with its computed
 * styles written into it, canvases drawn anew as SVG. Always in the light theme.
 */
import { inLight, useTheme } from '../look/theme.ts'
import type { Theme } from '../look/theme.ts'
import { canvasPictures } from './canvasPictures.ts'

const SVG = 'http://www.w3.org/2000/svg'
const SIDES = ['top', 'right', 'bottom', 'left'] as const
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
  'font',
  'text-anchor',
  'dominant-baseline',
  'vector-effect',
]
const escape = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;')
const round = (value: number) => String(Math.round(value * 100) / 100)
const isClear = (colour: string) => colour === 'transparent' || /^rgba\(.*,\s*0\)$/u.test(colour)

interface Origin {
  readonly left: number
  readonly top: number
}

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

function boxOf(style: CSSStyleDeclaration, box: DOMRect, origin: Origin): string {
  const [x, y] = [box.left - origin.left, box.top - origin.top]
  let drawn = ''
  if (!isClear(style.backgroundColor) && box.width > 0 && box.height > 0)
    drawn += `<rect x="${round(x)}" y="${round(y)}" width="${round(box.width)}" height="${round(box.height)}" fill="${style.backgroundColor}"/>`
  for (const side of SIDES) {
    const width = Number.parseFloat(style.getPropertyValue(`border-${side}-width`)) || 0
    const colour = style.getPropertyValue(`border-${side}-color`)
    const kind = style.getPropertyValue(`border-${side}-style`)
    if (width === 0 || kind === 'none' || isClear(colour)) continue
    const isAcross = side === 'top' || side === 'bottom'
    const at = side === 'top' || side === 'left' ? width / 2 : -width / 2
    const [x1, x2] = isAcross
      ? [x, x + box.width]
      : [side === 'left' ? x + at : x + box.width + at].flatMap((v) => [v, v])
    const [y1, y2] = isAcross
      ? [side === 'top' ? y + at : y + box.height + at].flatMap((v) => [v, v])
      : [y, y + box.height]
    const dash = kind === 'dotted' ? `0 ${width * 2}` : kind === 'dashed' ? `${width * 3} ${width * 2}` : ''
    drawn += `<line x1="${round(x1!)}" y1="${round(y1!)}" x2="${round(x2!)}" y2="${round(y2!)}" stroke="${colour}" stroke-width="${width}"${dash && ` stroke-dasharray="${dash}" stroke-linecap="${kind === 'dotted' ? 'round' : 'butt'}"`}/>`
  }
  return drawn
}

function textOf(node: Text, style: CSSStyleDeclaration, origin: Origin): string {
  const text = (node.textContent ?? '').replaceAll(/[ \t\r\n]+/gu, ' ').trim()
  if (text === '') return ''
  const range = document.createRange()
  range.selectNodeContents(node)
  const box = range.getBoundingClientRect()
  if (box.width === 0) return ''
  const baseline = box.top + box.height / 2 + Number.parseFloat(style.fontSize) * 0.35
  return `<text x="${round(box.left - origin.left)}" y="${round(baseline - origin.top)}" textLength="${round(box.width)}" lengthAdjust="spacingAndGlyphs" fill="${style.color}" font-family="${escape(style.fontFamily)}" font-size="${style.fontSize}" font-weight="${style.fontWeight}" font-style="${style.fontStyle}">${escape(text)}</text>`
}

function walk(element: Element, origin: Origin, canvases: ReadonlyMap<Element, string>): string {
  const style = getComputedStyle(element)
  if (style.display === 'none' || style.visibility === 'hidden' || style.opacity === '0') return ''
  if (element.matches('.unseen, button, input')) return ''
  const box = element.getBoundingClientRect()
  if (element instanceof SVGSVGElement) return inlined(element, box, origin)
  const canvas = canvases.get(element)
  if (canvas !== undefined)
    return canvas.replace('<svg ', `<svg x="${round(box.left - origin.left)}" y="${round(box.top - origin.top)}" `)
  let drawn = boxOf(style, box, origin)
  for (const pseudo of ['::before', '::after']) drawn += pseudoLine(element, pseudo, box, origin)
  for (const child of element.childNodes) {
    if (child instanceof Text) drawn += textOf(child, style, origin)
    else if (child instanceof Element) drawn += walk(child, origin, canvases)
  }
  return drawn
}

/** Grid lines and ticks hang on pseudo-elements: placed absolutely, in pixels, within an element that holds a place itself. */
function pseudoLine(element: Element, pseudo: string, box: DOMRect, origin: Origin): string {
  const style = getComputedStyle(element, pseudo)
  if (style.content === 'none' || style.position !== 'absolute') return ''
  const px = (name: string) => Number.parseFloat(style.getPropertyValue(name)) || 0
  const place = new DOMRect(box.left + px('left'), box.top + px('top'), px('width'), px('height'))
  return boxOf(style, place, origin)
}

const bare = (colour: string) => colour.replaceAll(' ', '')

/** Canvas colours are those of the theme on screen; each stands for a token, and the light theme has the same token. */
function inLightColours(svg: string, shown: Theme, light: Theme): string {
  const names = Object.keys(light) as (keyof Theme)[]
  const pairs = new Map(names.map((name) => [bare(shown[name] ?? ''), light[name]]))
  return svg.replaceAll(/rgba?\([^)]*\)/gu, (colour) => pairs.get(bare(colour)) ?? colour)
}

/** Reads the plot as it lies on the page now. */
export async function pictureOf(root: Element, title: string): Promise<string> {
  const hosts = [root, ...root.querySelectorAll('*')].flatMap((element) => {
    const draw = canvasPictures.get(element)
    return draw ? [{ element, draw }] : []
  })
  const drawn = await Promise.all(hosts.map(async ({ element, draw }) => ({ element, svg: await draw() })))
  const shown = { ...useTheme() }
  return inLight((light) => {
    const canvases = new Map(drawn.map(({ element, svg }) => [element, inLightColours(svg, shown, light)]))
    const { left, top, width, height } = root.getBoundingClientRect()
    const EDGE = 24
    const size = [width + 2 * EDGE, height + 2 * EDGE].map((length) => round(length))
    const body = walk(root, { left: left - EDGE, top: top - EDGE }, canvases)
    return `<svg xmlns="${SVG}" width="${size[0]}" height="${size[1]}" viewBox="0 0 ${size[0]} ${size[1]}" role="img"><title>${escape(title)}</title><rect width="100%" height="100%" fill="${light.page}"/>${body}</svg>`
  })
}

/** Pixels of a PNG for each pixel of the page, so that it prints sharp. */
const DENSITY = 2

/** The same picture as PNG. */
export async function pngOf(svg: string): Promise<Blob> {
  const image = new Image()
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }))
  try {
    image.src = address
    await image.decode()
    const canvas = document.createElement('canvas')
    canvas.width = image.naturalWidth * DENSITY
    canvas.height = image.naturalHeight * DENSITY
    canvas.getContext('2d')!.drawImage(image, 0, 0, canvas.width, canvas.height)
    return await new Promise((settle, reject) =>
      canvas.toBlob(
        (blob) => (blob ? settle(blob) : reject(new Error('The picture could not be drawn.'))),
        'image/png',
      ),
    )
  } finally {
    URL.revokeObjectURL(address)
  }
}
