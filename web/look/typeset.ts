/** Sentences from plain text to print: true minus signs, and no break between a number and its unit. */

const UNIT = String.raw`(?:[GMkmµn]?(?:V|A|W|Ω|F|Hz)|°C|K|%|MB|kB)(?![\p{L}\d])`

const QUOTED = /("[^"]*"|“[^”]*”)/u
const MINUS = /(?<![\p{L}\d.,)])-(?=\d)/gu
const SPACE = new RegExp(String.raw`(?<=\d) (?=${UNIT})`, 'gu')

/** What is quoted stays as it was typed. */
export function typeset(text: string): string {
  return text
    .split(QUOTED)
    .map((piece, i) => (i % 2 === 1 ? piece : piece.replaceAll(MINUS, '\u2212').replaceAll(SPACE, '\u202F')))
    .join('')
}
