/** The faces that a copy needs, with their files inside, so that it looks alike where they are not installed. */
import { type WrittenRule, splitRules } from './styles.ts'

export interface WrittenSheet {
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
  if (!response.ok) throw new Error(`handOut/faces: no style sheet at ${href}`)
  return { text: await response.text(), base: href }
}

/** The style sheets of a page as they were written. */
export const writtenSheets = ({ styleSheets }: Document): Promise<WrittenSheet[]> =>
  Promise.all([...styleSheets].map(writtenSheet))

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

export const firstFamily = (list: string): string => list.split(',')[0]!.trim().replaceAll(/["']/gu, '')

/** The value of a descriptor in the body of a face; empty where it is left out. */
const descriptor = (body: string, name: string): string =>
  new RegExp(`(?:^|;)\\s*${name}\\s*:([^;]*)`, 'iu').exec(body)?.[1]?.trim() ?? ''

/** Letters and the families that set them. */
export interface Letters {
  readonly families: ReadonlySet<string>
  readonly letters: ReadonlySet<number>
}

/** What the text of an element is set in. */
export function lettersOf(sheet: Element): Letters {
  const elements = [sheet, ...sheet.querySelectorAll('*')]
  return {
    letters: new Set(Array.from(sheet.textContent ?? '', (letter) => letter.codePointAt(0)!)),
    families: new Set(elements.map((element) => firstFamily(getComputedStyle(element).fontFamily))),
  }
}

/** The faces that hold these letters, as rules with their files inside. */
export function facesFor({ families, letters }: Letters, sheets: readonly WrittenSheet[]): Promise<string[]> {
  const faces = sheets
    .flatMap(({ text, base }) => splitRules(text).map((rule) => ({ ...rule, base })))
    .filter(
      ({ head, body }) =>
        head === '@font-face' &&
        families.has(firstFamily(descriptor(body, 'font-family'))) &&
        covers(descriptor(body, 'unicode-range'), letters),
    )
  return Promise.all(faces.map(withData))
}

/** The face with its file inside. */
async function withData({ body, base }: Face): Promise<string> {
  const address = /url\(["']?([^"')]+)["']?\)/u.exec(body)?.[1]
  if (address === undefined) return ''
  const response = await fetch(new URL(address, base))
  if (!response.ok) throw new Error(`handOut/faces: no face at ${address}`)
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
