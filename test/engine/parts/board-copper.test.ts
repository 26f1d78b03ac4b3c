import { describe, expect, test } from 'vitest'
import { BOARD_COPPER, boardCopper, copperResistance, leastCopper } from '../../../engine/parts/board-copper/index.ts'
import { DIODES } from '../../../engine/parts/reference-diode/index.ts'

const infineon = boardCopper('SOT-223').find(({ source }) => source.startsWith('Infineon'))!

describe('copper under a package', () => {
  test('cools the better the larger it is, within each source', () => {
    const sources = new Set(BOARD_COPPER.map((row) => `${row.package} ${row.source}`))
    for (const each of sources) {
      const rows = boardCopper(BOARD_COPPER.find((r) => `${r.package} ${r.source}` === each)!.package).filter(
        (r) => `${r.package} ${r.source}` === each,
      )
      for (let k = 1; k < rows.length; k++)
        expect(rows[k]!.thermalResistance).toBeLessThan(rows[k - 1]!.thermalResistance)
    }
  })

  test('keeps the published points and runs straight between them on logarithmic scales', () => {
    // Infineon SOT223-4-2: footprint 164.3, 3 cm² 81.2, 6 cm² 68 K/W.
    expect(copperResistance(infineon, 300e-6)).toBe(81.2)
    expect(copperResistance(infineon, 600e-6)).toBe(68)
    expect(copperResistance(infineon, Math.sqrt(300e-6 * 600e-6))).toBeCloseTo(Math.sqrt(81.2 * 68), 9)
    let last = Infinity
    for (let area = 50e-6; area < 2e-3; area *= 1.2) {
      const here = copperResistance(infineon, area)
      expect(here).toBeLessThanOrEqual(last)
      last = here
    }
  })

  test('promises nothing beyond what is published', () => {
    expect(copperResistance(infineon, 100e-6)).toBe(164.3)
    expect(copperResistance(infineon, 10e-3)).toBe(68)
    expect(leastCopper('SOT-223', 30)).toBeUndefined()
    expect(leastCopper('TO-3', 100)).toBeUndefined()
  })

  test('is no more than is needed, and never a doubtful figure', () => {
    expect(leastCopper('SOT-223', 65)).toMatchObject({ area: 500e-6, thermalResistance: 60 })
    expect(leastCopper('SMA DO-214AC', 250)).toMatchObject({ thermalResistance: 250 })
    expect(leastCopper('SMA DO-214AC', 200)).toBeUndefined()
  })
})

test('the surface-mount diodes of the catalogue stand on the board that is listed here', () => {
  const mounted = DIODES.filter(({ mounting }) => mounting === 'surface-mount')
  expect(mounted.length).toBeGreaterThan(0)
  for (const row of mounted)
    expect(boardCopper(row.package).map((r) => r.thermalResistance)).toContain(row.thermalResistance)
})
