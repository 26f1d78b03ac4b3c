/** The box of an element as SVG: its ground, its borders, its shape where it is cut or rounded. Lengths in pixels. */

/** The corner of the picture on the page. */
export interface Origin {
  readonly left: number
  readonly top: number
}

const SIDES = ['top', 'right', 'bottom', 'left'] as const

export const round = (value: number) => String(Math.round(value * 100) / 100)
const isClear = (colour: string) => colour === 'transparent' || /^rgba\(.*,\s*0\)$/u.test(colour)

/** A length of CSS, of which percentages are of `whole`. */
const lengthOf = (text: string, whole: number) =>
  text.endsWith('%') ? (Number.parseFloat(text) / 100) * whole : Number.parseFloat(text) || 0

/** Corners of `polygon(…)` in the box; undefined where the box is not cut so. */
function cornersOf(clip: string, box: DOMRect): string | undefined {
  const list = /^polygon\((.*)\)$/u.exec(clip)?.[1]
  return list
    ?.split(',')
    .map((corner) => {
      const [x = '', y = ''] = corner.trim().split(/\s+/u)
      return `${round(box.left + lengthOf(x, box.width))},${round(box.top + lengthOf(y, box.height))}`
    })
    .join(' ')
}

/** The rim that a shadow draws around a mark, so that it stands apart from its line. */
function rimOf(around: Element | undefined): string {
  const colour = around && /drop-shadow\((rgba?\([^)]*\))/u.exec(getComputedStyle(around).filter)?.[1]
  return colour ? ` stroke="${colour}" stroke-width="1.6" paint-order="stroke"` : ''
}

/** `around` is the element that it lies in. */
export function boxOf(style: CSSStyleDeclaration, place: DOMRect, origin: Origin, around?: Element): string {
  const box = new DOMRect(place.left - origin.left, place.top - origin.top, place.width, place.height)
  return groundOf(style, box, around) + rimmed(style, box) + bordersOf(style, box)
}

function groundOf(style: CSSStyleDeclaration, box: DOMRect, around?: Element): string {
  if (isClear(style.backgroundColor) || box.width === 0 || box.height === 0) return ''
  const paint = `fill="${style.backgroundColor}"${rimOf(around)}`
  const corners = cornersOf(style.clipPath, box)
  if (corners !== undefined) return `<polygon points="${corners}" ${paint}/>`
  const radius = Math.min(lengthOf(style.borderTopLeftRadius, box.width), box.width / 2, box.height / 2)
  if (radius > 0 && radius >= box.width / 2 && Math.abs(box.width - box.height) < 0.01)
    return `<circle cx="${round(box.left + radius)}" cy="${round(box.top + radius)}" r="${round(radius)}" ${paint}/>`
  const rounded = radius > 0 ? ` rx="${round(radius)}"` : ''
  return `<rect x="${round(box.left)}" y="${round(box.top)}" width="${round(box.width)}" height="${round(box.height)}"${rounded} ${paint}/>`
}

/** A shadow inwards without blur is a line along the edge. */
function rimmed({ boxShadow }: CSSStyleDeclaration, box: DOMRect): string {
  const [, colour, spread] = /^(rgba?\([^)]*\)) 0px 0px 0px ([\d.]+)px inset$/u.exec(boxShadow) ?? []
  const width = Number(spread)
  if (colour === undefined || isClear(colour) || !(width > 0)) return ''
  return `<rect x="${round(box.left + width / 2)}" y="${round(box.top + width / 2)}" width="${round(Math.max(0, box.width - width))}" height="${round(Math.max(0, box.height - width))}" fill="none" stroke="${colour}" stroke-width="${width}"/>`
}

function bordersOf(style: CSSStyleDeclaration, box: DOMRect): string {
  let drawn = ''
  for (const side of SIDES) {
    const width = Number.parseFloat(style.getPropertyValue(`border-${side}-width`)) || 0
    const colour = style.getPropertyValue(`border-${side}-color`)
    const kind = style.getPropertyValue(`border-${side}-style`)
    if (width === 0 || kind === 'none' || isClear(colour)) continue
    const isAcross = side === 'top' || side === 'bottom'
    const at = side === 'top' || side === 'left' ? box[side] + width / 2 : box[side] - width / 2
    const [x1, x2] = isAcross ? [box.left, box.right] : [at, at]
    const [y1, y2] = isAcross ? [at, at] : [box.top, box.bottom]
    const dash = kind === 'dotted' ? `0 ${width * 2}` : kind === 'dashed' ? `${width * 3} ${width * 2}` : ''
    const dashed = dash && ` stroke-dasharray="${dash}" stroke-linecap="${kind === 'dotted' ? 'round' : 'butt'}"`
    drawn += `<line x1="${round(x1)}" y1="${round(y1)}" x2="${round(x2)}" y2="${round(y2)}" stroke="${colour}" stroke-width="${width}"${dashed}/>`
  }
  return drawn
}
