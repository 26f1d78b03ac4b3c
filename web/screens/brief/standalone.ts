/**
 * The sheet as one HTML file: its elements as they stand, the rules that apply to them, the faces that their letters need.
 * It holds no script, and its policy lets it fetch nothing.
 */

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
  const rules = [...(await facesFor(sheet)), ...rulesFor(sheet)]
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

// --- rules

/** Sheets of this page that may be read; one of another origin may not, and there is none. */
function pageRules(document: Document): CSSRule[] {
  return [...document.styleSheets].flatMap((sheet) => [...sheet.cssRules])
}

/** What the cascade asks of an element's state or a part of it, which no element matches by itself. */
const PARTS = /::?(?:before|after|marker|first-line|first-letter|placeholder|details-content)\b/gu

function rulesFor(sheet: Element): string[] {
  const { documentElement, body } = sheet.ownerDocument
  const elements = [documentElement, body, sheet, ...sheet.querySelectorAll('*')]
  const applies = (selector: string): boolean => {
    const plain = selector.replace(PARTS, '').replace(/(^|[\s>+~])(?=$|[\s>+~])/gu, '$1*')
    try {
      return elements.some((element) => element.matches(plain))
    } catch {
      return false
    }
  }
  const kept = (rule: CSSRule): string[] => {
    if ('selectorText' in rule && typeof rule.selectorText === 'string' && !rule.cssText.startsWith('@'))
      return splitSelectors(rule.selectorText).some(applies) ? [rule.cssText] : []
    if (rule.cssText.startsWith('@page')) return /^@page\s*\{/u.test(rule.cssText) ? [rule.cssText] : []
    if (!('cssRules' in rule)) return []
    const inner = [...(rule.cssRules as CSSRuleList)].flatMap(kept)
    const head = rule.cssText.slice(0, rule.cssText.indexOf('{')).trim()
    return inner.length > 0 && /^@(?:media|supports|container|layer)\b/u.test(head)
      ? [`${head} {\n${inner.join('\n')}\n}`]
      : []
  }
  return pageRules(sheet.ownerDocument).flatMap(kept)
}

/** A list of selectors at its commas, but not at those within brackets. */
function splitSelectors(text: string): string[] {
  const parts: string[] = ['']
  let depth = 0
  for (const letter of text) {
    if (letter === '(' || letter === '[') depth++
    if (letter === ')' || letter === ']') depth--
    if (letter === ',' && depth === 0) parts.push('')
    else parts[parts.length - 1] += letter
  }
  return parts.map((part) => part.trim())
}

// --- faces

const RANGE = /U\+([0-9A-F]+)(?:-([0-9A-F]+))?/giu

/** Whether a `unicode-range` has any of the letters. */
function covers(range: string, letters: ReadonlySet<number>): boolean {
  if (range === '') return true
  for (const [, from = '0', to = from] of range.matchAll(RANGE)) {
    const [low, high] = [Number.parseInt(from, 16), Number.parseInt(to, 16)]
    for (const letter of letters) if (letter >= low && letter <= high) return true
  }
  return false
}

/** The faces of the page that the sheet's text is set in, with their files inside. One that cannot be had is left out: others stand in. */
async function facesFor(sheet: Element): Promise<string[]> {
  const letters = new Set(Array.from(sheet.textContent ?? '', (letter) => letter.codePointAt(0)!))
  const families = new Set(
    [sheet, ...sheet.querySelectorAll('*')].map((element) => firstFamily(getComputedStyle(element).fontFamily)),
  )
  const faces = pageRules(sheet.ownerDocument).filter(
    (rule): rule is CSSFontFaceRule =>
      rule instanceof CSSFontFaceRule &&
      families.has(firstFamily(rule.style.getPropertyValue('font-family'))) &&
      covers(rule.style.getPropertyValue('unicode-range'), letters),
  )
  const written = await Promise.all(faces.map(faceText))
  return written.filter((text) => text !== undefined)
}

const firstFamily = (list: string): string => list.split(',')[0]!.trim().replaceAll(/["']/gu, '')

async function faceText(rule: CSSFontFaceRule): Promise<string | undefined> {
  const address = /url\(["']?([^"')]+)["']?\)/u.exec(rule.style.getPropertyValue('src'))?.[1]
  if (address === undefined) return undefined
  try {
    const response = await fetch(new URL(address, rule.parentStyleSheet?.href ?? location.href))
    if (!response.ok) return undefined
    const data = toBase64(new Uint8Array(await response.arrayBuffer()))
    const own = ['font-family', 'font-style', 'font-weight', 'unicode-range']
      .map((name) => [name, rule.style.getPropertyValue(name)])
      .filter(([, value]) => value !== '')
      .map(([name, value]) => `${name}: ${value};`)
    return `@font-face { ${own.join(' ')} src: url("data:font/woff2;base64,${data}") format("woff2"); }`
  } catch {
    return undefined
  }
}

function toBase64(bytes: Uint8Array): string {
  let text = ''
  for (let i = 0; i < bytes.length; i += 8192) text += String.fromCharCode(...bytes.subarray(i, i + 8192))
  return btoa(text)
}
