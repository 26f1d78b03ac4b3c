/**
 * The sheet as one HTML file: its elements as they stand, the rules that apply to them, the faces that their letters need.
 * It holds no script, and its policy lets it fetch nothing.
 */

import { type WrittenRule, rulesFor, splitRules } from './styles.ts'

/** Nothing may be fetched or run; the styles and faces are in the file itself. */
export const FILE_POLICY = [
  "default-src 'none'",
  "style-src 'unsafe-inline'",
  'font-src data:',
  "base-uri 'none'",
  "form-action 'none'",
].join('; ')

export async function standalone(sheet: Element, title: string): Promise<string> {
  const document = sheet.ownerDocument
  const file = document.implementation.createHTMLDocument('')
  file.title = title
  file.documentElement.lang = 'en'
  const meta = (attributes: Record<string, string>) => {
    const element = file.createElement('meta')
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value)
    return element
  }
  file.head.prepend(
    meta({ charset: 'utf-8' }),
    meta({ 'http-equiv': 'Content-Security-Policy', content: FILE_POLICY }),
    meta({ name: 'viewport', content: 'width=device-width, initial-scale=1' }),
    meta({ name: 'referrer', content: 'no-referrer' }),
  )
  const style = file.createElement('style')
  const written = await Promise.all([...document.styleSheets].map(writtenSheet))
  const faces = await Promise.all(facesFor(sheet, written).map(withData))
  const rules = [...faces, ...written.flatMap(({ text }) => rulesFor(sheet, text))]
  // what ends the element in a file is harmless in a rule
  style.textContent = rules.join('\n').replaceAll('</', '<\\/')
  file.head.append(style)
  file.body.append(bare(file.importNode(sheet, true)))
  return `<!doctype html>\n${file.documentElement.outerHTML}\n`
}

/** Without what only the page itself has a use for: placeholders, and what could be focused or run. */
function bare(sheet: Node): Node {
  const walk = document.createTreeWalker(sheet, NodeFilter.SHOW_COMMENT)
  const comments: Node[] = []
  while (walk.nextNode()) comments.push(walk.currentNode)
  for (const comment of comments) comment.parentNode?.removeChild(comment)
  if (sheet instanceof Element)
    for (const element of sheet.querySelectorAll('[tabindex]')) element.removeAttribute('tabindex')
  return sheet
}

// --- styles

interface WrittenSheet {
  readonly text: string
  /** What addresses in it are relative to. */
  readonly base: string
}

/**
 * A style sheet of the page as it was written. What the browser makes of it is no copy: a `font` with a variable in it is gone
 * from the text of a rule that sets one of its parts too.
 */
async function writtenSheet({ href, ownerNode }: CSSStyleSheet): Promise<WrittenSheet> {
  if (href === null) return { text: ownerNode?.textContent ?? '', base: location.href }
  const response = await fetch(href)
  if (!response.ok) throw new Error(`brief/standalone: no style sheet at ${href}`)
  return { text: await response.text(), base: href }
}

// --- faces

interface Face extends WrittenRule {
  readonly base: string
}

const RANGE = /U\+([0-9A-F?]+)(?:-([0-9A-F]+))?/giu

/** Whether a `unicode-range` has any of the letters; without one it has all. */
function covers(range: string, letters: ReadonlySet<number>): boolean {
  if (range === '') return true
  for (const [, from = '0', to = from] of range.matchAll(RANGE)) {
    const low = Number.parseInt(from.replaceAll('?', '0'), 16)
    const high = Number.parseInt(to.replaceAll('?', 'F'), 16)
    for (const letter of letters) if (letter >= low && letter <= high) return true
  }
  return false
}

const firstFamily = (list: string): string => list.split(',')[0]!.trim().replaceAll(/["']/gu, '')

/** The value of a descriptor in the body of a face; empty where it is left out. */
const descriptor = (body: string, name: string): string =>
  new RegExp(`(?:^|;)\\s*${name}\\s*:([^;]*)`, 'iu').exec(body)?.[1]?.trim() ?? ''

/** The faces that the sheet's text is set in. */
function facesFor(sheet: Element, sheets: readonly WrittenSheet[]): Face[] {
  const letters = new Set(Array.from(sheet.textContent ?? '', (letter) => letter.codePointAt(0)!))
  const families = new Set(
    [sheet, ...sheet.querySelectorAll('*')].map((element) => firstFamily(getComputedStyle(element).fontFamily)),
  )
  return sheets
    .flatMap(({ text, base }) => splitRules(text).map((rule) => ({ ...rule, base })))
    .filter(
      ({ head, body }) =>
        head === '@font-face' &&
        families.has(firstFamily(descriptor(body, 'font-family'))) &&
        covers(descriptor(body, 'unicode-range'), letters),
    )
}

/** The face with its file inside. */
async function withData({ body, base }: Face): Promise<string> {
  const address = /url\(["']?([^"')]+)["']?\)/u.exec(body)?.[1]
  if (address === undefined) return ''
  const response = await fetch(new URL(address, base))
  if (!response.ok) throw new Error(`brief/standalone: no face at ${address}`)
  const data = toBase64(new Uint8Array(await response.arrayBuffer()))
  const own = ['font-family', 'font-style', 'font-weight', 'unicode-range']
    .map((name) => [name, descriptor(body, name)])
    .filter(([, value]) => value !== '')
    .map(([name, value]) => `${name}:${value};`)
  return `@font-face{${own.join('')}src:url("data:font/woff2;base64,${data}") format("woff2")}`
}

function toBase64(bytes: Uint8Array): string {
  let text = ''
  for (let i = 0; i < bytes.length; i += 8192) text += String.fromCharCode(...bytes.subarray(i, i + 8192))
  return btoa(text)
}
