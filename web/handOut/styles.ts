/** Style sheets as text: split into rules, and those kept that some element of a sheet answers to. */

/** What stands before the braces of a rule, and what stands in them. */
export interface WrittenRule {
  readonly head: string
  readonly body: string
}

/** The rules of a text, one level deep. What ends with a semicolon, an import say, is left out. */
export function splitRules(css: string): WrittenRule[] {
  const text = css.replaceAll(/\/\*[\s\S]*?\*\//gu, '')
  const rules: WrittenRule[] = []
  let from = 0
  let open = -1
  let depth = 0
  let quote = ''
  for (let i = 0; i < text.length; i++) {
    const letter = text[i]!
    if (letter === '\\') i++
    else if (quote !== '') {
      if (letter === quote) quote = ''
    } else if (letter === '"' || letter === "'") quote = letter
    else if (letter === '{') {
      if (depth === 0) open = i
      depth++
    } else if (letter === '}') {
      depth--
      if (depth > 0) continue
      rules.push({ head: text.slice(from, open).trim(), body: text.slice(open + 1, i) })
      from = i + 1
    } else if (letter === ';' && depth === 0) from = i + 1
  }
  return rules
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

const PART = '::?(?:before|after|marker|first-line|first-letter|placeholder|details-content)(?![\\w-])'
/** Parts of an element, which no element matches by itself: with nothing before them, and after something. */
const BARE_PARTS = new RegExp(String.raw`(^|[\s>+~])${PART}`, 'gu')
const PARTS = new RegExp(PART, 'gu')
/** Groups of rules that hold under a condition. */
const GROUPS = /^@(?:media|supports|container|layer)(?![\w-])/u

/** The rules of a text that apply to a sheet, or to the page around it, as they were written. Faces are not among them. */
export function rulesFor(sheet: Element, css: string): string[] {
  const { documentElement, body } = sheet.ownerDocument
  const elements = [documentElement, body, sheet, ...sheet.querySelectorAll('*')]
  const applies = (selector: string): boolean => {
    const whole = selector.replaceAll(BARE_PARTS, '$1*').replaceAll(PARTS, '')
    try {
      return elements.some((element) => element.matches(whole))
    } catch {
      // a selector that this browser does not know applies to nothing in it
      return false
    }
  }
  const kept = ({ head, body: inside }: WrittenRule): string[] => {
    // every print of the file is a print of the sheet: pages with a name are those of other screens
    if (head === '@page') return [`@page{${inside}}`]
    if (GROUPS.test(head)) {
      const inner = splitRules(inside).flatMap(kept)
      return inner.length > 0 ? [`${head}{${inner.join('\n')}}`] : []
    }
    if (head.startsWith('@')) return []
    return splitSelectors(head).some(applies) ? [`${head}{${inside}}`] : []
  }
  return splitRules(css).flatMap(kept)
}
