/** The CSV that leaves the page, read back by a parser of its own. Form: RFC 4180. Formula injection: common practice, no source. */
import { describe, expect, it } from 'vitest'
import { randomOf } from '../../../engine/random/index.ts'
import { BYTE_ORDER_MARK, csvCell, csvText, isPlainNumber } from '../../../web/handOut/csv.ts'

/** Reads RFC 4180, character by character: written apart from the writer. */
function read(text: string): string[][] {
  const rows: string[][] = []
  let row: string[] = []
  let cell = ''
  let isQuoted = false
  for (let i = 0; i < text.length; i++) {
    const c = text[i]!
    if (isQuoted) {
      if (c !== '"') cell += c
      else if (text[i + 1] === '"') cell += text[++i]!
      else isQuoted = false
    } else if (c === '"') isQuoted = true
    else if (c === ',') {
      row.push(cell)
      cell = ''
    } else if (c === '\r' && text[i + 1] === '\n') {
      i++
      rows.push([...row, cell])
      row = []
      cell = ''
    } else cell += c
  }
  return rows
}

const ALPHABET = [...Array.from('=+-@\t\r\n,;"\' \u22120123456789.eEVµΩé–aZ'), '\u202F', '😀']

describe('csv', () => {
  it('brings every text back, save for the apostrophe before what could be a formula', () => {
    const random = randomOf(7, 1)
    const draw = (n: number) => Math.floor(random() * n)
    for (let run = 0; run < 3000; run++) {
      const width = 1 + draw(4)
      const rows = Array.from({ length: 1 + draw(4) }, () =>
        Array.from({ length: width }, () =>
          Array.from({ length: draw(7) }, () => ALPHABET[draw(ALPHABET.length)]!).join(''),
        ),
      )
      const text = csvText(rows)
      expect(text.startsWith(BYTE_ORDER_MARK)).toBe(true)
      const back = read(text.slice(1))
      expect(back.map((row) => row.length)).toEqual(rows.map((row) => row.length))
      for (const [r, row] of rows.entries())
        for (const [c, cell] of row.entries()) {
          const got = back[r]![c]!
          const plain = cell.replace(/^\u2212(?=[\d.])/u, '-')
          // what must come back: a number as it is, any other text as it was or behind an apostrophe
          const allowed = isPlainNumber(plain) ? [plain] : [cell, `'${cell}`]
          expect(allowed).toContain(got)
          const isFormula = /^\s*[=+\-@]|^[\t\r]/u.test(got) && !isPlainNumber(plain)
          expect(isFormula, JSON.stringify(got)).toBe(false)
        }
    }
  })

  it('writes every finite number so that it reads back the same', () => {
    const random = randomOf(7, 2)
    for (let run = 0; run < 2000; run++) {
      const value = (random() - 0.5) * 10 ** (random() * 40 - 20)
      expect(Number(csvCell(value))).toBe(value)
    }
    expect(csvCell(Number.NaN)).toBe('')
    expect(csvCell(Infinity)).toBe('')
    expect(csvCell(undefined)).toBe('')
  })

  it.each([
    ['=1+1', "'=1+1"],
    ['+cmd', "'+cmd"],
    ['-2+3', "'-2+3"],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['\t=1', "'\t=1"],
    ['\r=1', '"\'\r=1"'],
    ['-1', '-1'],
    ['+2.5e-3', '+2.5e-3'],
    ['\u22120.25', '-0.25'],
    ['4,5', '"4,5"'],
    ['say "on"', '"say ""on"""'],
  ])('writes %j as %j', (cell, written) => expect(csvCell(cell)).toBe(written))
})
