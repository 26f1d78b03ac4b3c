/**
 * Edit to paint: 200 seeded edits of random fields; each is timed inside the page from the Enter key until every lane, table and
 * plot is stamped with the new requirements' number and two frames have passed, and until the proven answer is painted. Edits that leave the page's words as they were
 * do not count and are drawn again.
 */
import { expect, test } from '@playwright/test'
import { randomOf } from '../../../engine/random/index.ts'
import { median } from '../median.ts'
import { editAndPaint, type Painted } from './editAndPaint.ts'

const EDITS = 200
const SEED = 20_240_229

/** Field, unit, and the ends between which a new value is drawn: around the first example, all values valid together. */
const FIELDS = [
  ['input.min', 'V', 9, 11],
  ['input.nominal', 'V', 11.5, 12.5],
  ['input.max', 'V', 13.5, 16],
  ['output.voltage', 'V', 4.6, 5.4],
  ['output.tolerance', '%', 2.5, 6],
  ['load.min', 'mA', 2, 8],
  ['load.nominal', 'mA', 60, 120],
  ['load.max', 'mA', 140, 200],
  ['ambient.min', '°C', -25, 0],
  ['ambient.max', '°C', 40, 55],
] as const

test('edit to paint', async ({ page }) => {
  test.setTimeout(15 * 60_000)
  await page.goto('./')
  await expect(page.locator('.canvas[data-revision]')).toBeVisible({ timeout: 30_000 })
  await expect(page.locator('main')).toHaveAttribute('aria-busy', 'false', { timeout: 30_000 })

  const draw = randomOf(SEED, 0)
  const times: Painted[] = []
  let idle = 0
  while (times.length < EDITS) {
    const [path, unit, from, to] = FIELDS[Math.floor(draw() * FIELDS.length)]!
    const text = `${Number((from + (to - from) * draw()).toPrecision(4))} ${unit}`
    const painted: Painted = await page.evaluate(editAndPaint, { path, text })
    expect(painted.refused, `${path}: ${text}`).toBe(false)
    if (painted.isChanged) times.push(painted)
    else idle += 1
  }
  for (const [what, of] of [
    ['first answer', ({ milliseconds }: Painted) => milliseconds],
    ['proven answer', ({ proven }: Painted) => proven],
  ] as const) {
    const sorted = times.map(of).toSorted((a, b) => a - b)
    const p95 = sorted[Math.ceil(0.95 * EDITS) - 1]!
    const figures = { median: median(sorted), p95, slowest: sorted.at(-1)! }
    const said = Object.entries(figures).map(([name, ms]) => `${name} ${ms.toFixed(0)} ms`)
    console.log(
      `edit to ${what} painted, ${EDITS} edits: ${said.join(', ')}; ${idle} more changed nothing and were left out`,
    )
  }
})
