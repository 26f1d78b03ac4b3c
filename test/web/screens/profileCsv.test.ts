/** Load profiles out of tables of text: what is read, and how a bad row is named. */
import { describe, expect, it } from 'vitest'
import { readProfileCsv } from '../../../web/screens/day/csv.ts'
import { studyWith } from '../../engine/analyses/studies.ts'

/** Load 5 to 40 mA, ambient -20 to 50 °C. */
const STUDY = studyWith({})
const read = (text: string) => readProfileCsv(text, STUDY)
const ROWS = [
  { load: 0.005, share: 0.9 },
  { load: 0.04, share: 0.1, ambient: 45 },
]

describe('a table of text', () => {
  it.each([
    ['commas', '5 mA,90 %\n40 mA,10 %,45 °C'],
    ['commas, in SI numbers alone', '0.005,0.9\n0.04,0.1,45'],
    ['semicolons and decimal commas', '0,005;0,9\n0,04;10,0 %;45'],
    ['a decimal comma with three digits, which could part thousands elsewhere', '5,000 mA;90,000 %\n40,000 mA;0,1;45'],
    ['tabs', '5 mA\t90 %\t\n40 mA\t10 %\t45'],
    ['a heading', 'current,share,temperature\n5 mA,90 %,\n40 mA,10 %,45'],
    ['units in the heading', 'Load (mA);Share [%];Temperature (°C)\n5;90;\n40;10;45'],
    ['quotation marks', '"5 mA","90 %"\n"0,04","10 %","45"'],
    ['a byte order mark, other line ends and empty lines', '\uFEFF5 mA,90 %\r\n\r\n40 mA,10 %,45\r\n'],
  ])('is read with %s', (_, text) => {
    expect(read(text)).toEqual({ rows: ROWS })
  })

  it.each([
    [
      'a share that is no value',
      '5 mA,90 %\n40 mA,often',
      [/^Line 2, column 2, share of time: “often” is not a number; .* such as 90 %\.$/u],
    ],
    [
      'a current in volts',
      'current,share\n5 V,90 %',
      [/^Line 2, column 1, current: “5 V” is a voltage \(V\), but a current is wanted here/u],
    ],
    [
      'a current beyond the most load',
      '5 mA,90 %\n\n900 mA,10 %',
      ['Line 3, column 1, current: “900 mA” is 900 mA; it must not be above Most load current, 40 mA.'],
    ],
    [
      'a temperature beyond the hottest ambient',
      '5 mA,90 %,70',
      ['Line 1, column 3, temperature: “70” is 70 °C; it must not be above Hottest ambient, 50 °C.'],
    ],
    [
      'a share that is missing',
      '5 mA',
      ['Line 1, column 2, share of time: there is nothing; a share of the time is due, such as 90 %.'],
    ],
    [
      'one more column',
      '5 mA,90 %,25,note',
      ['Line 1, column 4: “note”; a row has current, share of time, temperature, and no more.'],
    ],
    ['a per cent sign forgotten', '5 mA,90', [/^Line 1, column 2, share of time: “90” has no per cent sign/u]],
    [
      'a point among decimal commas',
      '1.000,5 mA;90 %',
      [/^Line 1, column 1, current: “1\.000,5 mA” has a point and a comma/u],
    ],
    [
      'columns in another order',
      'share,current\n90 %,5 mA',
      [
        /^Line 1, column 1: the heading “share”; here stands the current/u,
        /^Line 1, column 2: the heading “current”; here stands the share/u,
      ],
    ],
    ['a quotation mark left open', '"5 mA,90 %', ['Line 1: a quotation mark is not closed.']],
    ['nothing at all', ' \n', [/^The table is empty/u]],
    ['a heading alone', 'current,share', [/nothing below/u]],
  ])('names %s', (_, text, problems) => {
    expect(read(text)).toEqual({
      problems: problems.map((problem) => expect.stringMatching(problem) as string),
    })
  })

  it('takes no row where one is bad, and names every bad one', () => {
    const { rows, problems } = read('5 mA,50 %\nx,10 %\n40 mA,y')
    expect(rows).toBeUndefined()
    expect(problems!.map((text) => text.slice(0, 16))).toEqual(['Line 2, column 1', 'Line 3, column 2'])
  })

  it('names what is out of range beside what cannot be read, in the order of the lines', () => {
    const { problems } = read('900 mA,50 %\nx,10 %\n40 mA,80 %\n1 mA,5 %')
    expect(problems!.map((text) => text.slice(0, 25))).toEqual([
      'Line 1, column 1, current',
      'Line 2, column 1, current',
      'Line 4, column 1, current',
    ])
  })

  it('names the sum of shares that exceed the time', () => {
    expect(read('5 mA,90 %\n40 mA,20 %').problems).toEqual([
      expect.stringMatching(/sum to 110 %; they must not exceed 100 %/u),
    ])
  })

  it('counts the problems beyond the first eight', () => {
    const { problems } = read(Array.from({ length: 20 }, () => 'x,1 %').join('\n'))
    expect(problems).toHaveLength(9)
    expect(problems!.at(-1)).toBe('And 12 more problems.')
  })

  it('refuses more rows than a profile holds', () => {
    expect(read(Array.from({ length: 301 }, () => '5 mA,0.1 %').join('\n')).problems).toEqual([
      'The table has 301 rows; a load profile has at most 300.',
    ])
  })
})
