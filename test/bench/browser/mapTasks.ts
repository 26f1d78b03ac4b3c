/**
 * How long the main thread is held up while a map of 100 x 100 cells of the second example, which has many boundaries, is worked
 * out: every task over 50 ms, as the browser's own observer of long tasks sees them, from the moment the map is asked for to two frames after it is finished. Chromium.
 */
import { expect, test } from '@playwright/test'
import { median } from '../median.ts'

const CELLS = '100'
const EXAMPLE = /Loom/u
/** The observer tells of tasks from 50 ms on. */
interface Observed {
  longTasks: number[]
  frames: number[]
}

test('long tasks while a map runs', async ({ page }) => {
  test.setTimeout(40 * 60_000)
  await page.goto('./')
  await expect(page.locator('main')).toHaveAttribute('aria-busy', 'false', { timeout: 30_000 })
  await page.getByRole('button', { name: 'Studies' }).first().click()
  await page.getByRole('button', { name: EXAMPLE }).first().click()
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Where each wins' }).click()
  await expect(page.getByText('Working the map out.')).toBeVisible({ timeout: 120_000 })
  await page.evaluate(() => {
    const seen: Observed = { longTasks: [], frames: [] }
    Object.assign(globalThis, { seen })
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) seen.longTasks.push(duration)
    }).observe({ type: 'longtask' })
    let last = performance.now()
    const frame = () => {
      const now = performance.now()
      seen.frames.push(now - last)
      last = now
      requestAnimationFrame(frame)
    }
    requestAnimationFrame(frame)
  })
  const start = Date.now()
  await page.getByLabel('Cells each way').selectOption(CELLS)
  await expect(page.locator('[data-state="busy"]')).toBeVisible()
  await expect(page.locator('[data-state="ready"]')).toBeVisible({ timeout: 35 * 60_000 })
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))))
  const seconds = (Date.now() - start) / 1000
  const { longTasks, frames } = await page.evaluate(() => (globalThis as unknown as { seen: Observed }).seen)
  const longest = longTasks.toSorted((a, b) => b - a).slice(0, 8)
  const sorted = frames.toSorted((a, b) => a - b)
  const cells = await page.locator('.step').innerText()
  console.log(
    `map of ${CELLS} x ${CELLS}, ${seconds.toFixed(0)} s, ${cells} ${longTasks.length} tasks over 50 ms` +
      (longest.length > 0 ? `, the longest ${longest.map((ms) => ms.toFixed(0)).join(', ')} ms` : '') +
      `; frames: median ${median(sorted).toFixed(0)} ms, slowest ${sorted.at(-1)!.toFixed(0)} ms`,
  )
})
