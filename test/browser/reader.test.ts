/** What a reader gets beside the usual screen: the narrowest page, a sheet of paper, and a page where nothing meets. */
import { expect, type Page } from '@playwright/test'
import { answered, openPage, test, type } from './openPage.ts'

test.describe.configure({ timeout: 90_000 })

/** How far the middle of each dot at the cursor is from its curve, in pixels of its printed plot. */
function dotsOffCurves(page: Page): Promise<number[]> {
  return page.evaluate(() => {
    const dots = [...document.querySelectorAll('.readouts .dot')].map((dot) => dot.getBoundingClientRect())
    const lines = [...document.querySelectorAll<SVGPathElement>('.printed path[fill=none]')].filter(
      (line) => line.getAttribute('d') !== '',
    )
    return dots.map((dot) => {
      const [x, y] = [dot.left + dot.width / 2, dot.top + dot.height / 2]
      const distances = lines.map((line) => {
        const onScreen = line.getScreenCTM()!
        const points = Array.from({ length: 400 }, (_, i) =>
          line.getPointAtLength((line.getTotalLength() * i) / 399).matrixTransform(onScreen),
        )
        return Math.min(...points.map((point) => Math.hypot(point.x - x, point.y - y)))
      })
      return Math.min(...distances)
    })
  })
}

test('on paper the curves stand under their dots, and nothing is left out for want of a click', async ({ page }) => {
  await openPage(page)
  await page.emulateMedia({ media: 'print' })
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')))
  await expect(page.locator('.printed').first()).toBeVisible()
  await expect(page.locator('.canvas')).toBeHidden()
  const off = await dotsOffCurves(page)
  expect(off.length).toBeGreaterThan(10)
  expect(Math.max(...off)).toBeLessThan(1.5)
  for (const button of await page.getByRole('button').all()) await expect(button).toBeHidden()
})

test('where nothing meets, one click eases what the closest design misses', async ({ page }) => {
  let revision = await openPage(page)
  await type(page, 'output.tolerance', '0.2 %')
  revision = await answered(page, revision + 1)
  await expect(page.getByRole('heading', { level: 1 })).toContainText('No design meets every requirement')
  const ways = page.locator('.answer').getByRole('button', { name: /^Allow/u })
  await ways.last().click()
  await answered(page, revision + 1)
  await expect(page.getByRole('heading', { level: 1 })).not.toContainText('No design meets')
})

test('320 px wide nothing reaches out of the page, with the menu and the requirements open', async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 256 })
  await openPage(page)
  await page.getByRole('button', { name: 'Edit requirements' }).click()
  await page.getByRole('button', { name: 'Studies' }).click()
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320)
  const save = page.getByRole('button', { name: 'Save as a study file' })
  await save.focus()
  await expect(save).toBeInViewport()
})
