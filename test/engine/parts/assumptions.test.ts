import { describe, expect, it } from 'vitest'
import { AREAS, CATALOGUE, PRICES, findPart, kindOf } from '../../../engine/parts/index.ts'
import { PLACED, PRICED } from '../../../engine/requirements/index.ts'

const kindsOf = (partNumber: string) => kindOf(findPart(partNumber)!)

/** Names that no part goes by. */
const unused = (names: readonly string[], used: readonly string[]) => names.filter((name) => !used.includes(name))

describe('prices and areas', () => {
  it('has a kind for every row of the catalogue', () => {
    expect(CATALOGUE.filter((found) => kindOf(found) === undefined).map(({ row }) => row.partNumber)).toEqual([])
  })

  it('has no line that no part goes by', () => {
    const kinds = CATALOGUE.map((found) => kindOf(found)!)
    expect(
      unused(
        Object.keys(PRICED),
        kinds.map(({ price }) => price),
      ),
    ).toEqual([])
    // a body of 17 or of 20 mm is between two lines that parts do go by
    expect(
      unused(
        Object.keys(PLACED),
        kinds.map(({ area }) => area),
      ),
    ).toEqual(['axial-0411', 'axial-0617', 'axial-20mm'])
  })

  it('marks every price as an assumption, with a date and a source', () => {
    for (const row of Object.values(PRICES)) {
      expect(row.confidence).toBe('assumption')
      expect(row.source).not.toBe('')
      expect(row.date).toMatch(/^\d{4}-\d{2}$/)
    }
  })

  it('says of most areas that they were read, and of the rest what they are', () => {
    const others = Object.entries(AREAS).filter(([, row]) => row.confidence !== 'read')
    expect(others.map(([name]) => name).toSorted()).toEqual(
      ['ceramic-leaded', 'cement-upright', 'film-other', 'r-1218', 'tantalum'].toSorted(),
    )
  })

  // the sides printed in the footprint library's table: 12.26 x 3.00, 5.46 x 4.74, 10.50 x 4.91 and 9.80 x 10.70 mm
  it.each([
    ['MF 0.25 W', 'resistor-small', 'axial-0207', 36.8],
    ['BC547B', 'transistor-to-92', 'to-92', 25.9],
    ['TIP41C', 'transistor-to-220-10a', 'to-220', 51.6],
    ['LM358BP', 'op-amp-lm358', 'dip-8', 104.9],
  ])('places %s', (partNumber, price, area, squareMillimetres) => {
    expect(kindsOf(partNumber)).toEqual({ price, area })
    expect(AREAS[kindsOf(partNumber)!.area].area! * 1e6).toBeCloseTo(squareMillimetres, 1)
  })

  it('puts a body between two footprints into the longer one', () => {
    expect(kindsOf('WW cement 5 W')!.area).toBe('axial-38mm')
    expect(kindsOf('CF18')!.area).toBe('axial-0204')
    expect(kindsOf('CF14')!.area).toBe('axial-0207')
  })

  it('tells the grades of a reference and the sizes of an electrolytic apart', () => {
    expect(kindsOf('LM4040A25ILP')!.price).toBe('reference-lm4040-ab')
    expect(kindsOf('Nichicon URZ 10.0\u202fµF 16\u202fV')).toEqual({ price: 'electrolytic-100u', area: 'can-5' })
    expect(kindsOf('Nichicon URZ 470\u202fµF 35\u202fV')!.price).toBe('electrolytic-470u')
    expect(kindsOf('Nichicon URZ 10.0\u202fµF 100\u202fV')!.price).toBe('electrolytic-other')
  })

  it('finds nothing for a part number that is not in the catalogue', () => {
    expect(findPart('NOT-A-PART')).toBeUndefined()
    expect(findPart(undefined)).toBeUndefined()
  })

  it('has one row for every part number', () => {
    const numbers = CATALOGUE.map(({ row }) => row.partNumber)
    expect(numbers.filter((number, k) => numbers.indexOf(number) !== k)).toEqual([])
  })
})
