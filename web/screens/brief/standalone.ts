/**
 * The sheet as one HTML file: its elements as they stand, the rules that apply to them, the faces that their letters need.
 * It holds no script, and its policy lets it fetch nothing.
 */

import { facesFor, lettersOf, writtenSheets } from '../../handOut/faces.ts'
import { rulesFor } from '../../handOut/styles.ts'

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
  const written = await writtenSheets(document)
  const faces = await facesFor(lettersOf(sheet), written)
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
