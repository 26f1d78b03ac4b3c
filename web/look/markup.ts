/** Elements as plain data: a drawing or a formula is made once, rendered by the page and written into files. */
import { type VNode, h } from 'vue'

export interface Markup {
  readonly tag: string
  readonly attributes: Readonly<Record<string, string | number>>
  readonly children: readonly (Markup | string)[]
}

export const markup = (
  tag: string,
  attributes: Markup['attributes'] = {},
  children: Markup['children'] = [],
): Markup => ({ tag, attributes, children })

/** What XML gives a meaning, written so that it has none. Characters that XML does not allow at all are dropped. */
export const escaped = (text: string): string =>
  text
    // eslint-disable-next-line no-control-regex
    .replace(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/gu, '')
    .replace(/&/gu, '&amp;')
    .replace(/</gu, '&lt;')
    .replace(/>/gu, '&gt;')
    .replace(/"/gu, '&quot;')

export function markupText({ tag, attributes, children }: Markup): string {
  const written = Object.entries(attributes)
    .map(([name, value]) => ` ${name}="${escaped(String(value))}"`)
    .join('')
  const inside = children.map((child) => (typeof child === 'string' ? escaped(child) : markupText(child))).join('')
  return inside === '' ? `<${tag}${written}/>` : `<${tag}${written}>${inside}</${tag}>`
}

const render = ({ tag, attributes, children }: Markup): VNode =>
  h(
    tag,
    attributes,
    children.map((child) => (typeof child === 'string' ? child : render(child))),
  )

/** Renders such elements; a component without a state of its own. */
export const MarkupView = ({ of }: { of: readonly Markup[] }): VNode[] => of.map(render)
MarkupView.props = ['of']
