/** The working in the built page: mathematics, links to lines, the part of a line, copy and paper. */
import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'
import { openPage, PATIENCE, test } from './openPage.ts'

test.describe.configure({ timeout: 120_000 })
test.use({ reducedMotion: 'reduce' })

async function openWorking(page: Page): Promise<void> {
  await openPage(page)
  await page.getByRole('link', { name: 'Working', exact: true }).click()
  await expect(page.locator('article.working')).toHaveCount(3, { timeout: PATIENCE })
  await expect(page.getByRole('heading', { level: 1 })).toContainText('By hand the output is')
}

const line = (page: Page, symbol: string, topology = 'series-pass') =>
  page.locator(`[id="working/${topology}/${symbol}"]`)

for (const colorScheme of ['light', 'dark'] as const)
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme })

    test('the checker finds nothing serious', async ({ page }) => {
      await openWorking(page)
      const { violations } = await new AxeBuilder({ page })
        // of the same make as the first: the checker takes half a minute for all three
        .exclude('article[data-topology="series-pass"]')
        .exclude('article[data-topology="feedback"]')
        .analyze()
      const grave = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
      expect(grave.map(({ id, nodes }) => `${id} at ${nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([])
    })
  })

test('formulas are set as mathematics: a fraction has its bar, and numerator above denominator', async ({ page }) => {
  await openWorking(page)
  const fraction = line(page, 'Rs_max').locator('.formula mfrac').first()
  expect(await fraction.evaluate((e) => e.namespaceURI)).toBe('http://www.w3.org/1998/Math/MathML')
  const [above, below] = [
    await fraction.locator('> *').nth(0).boundingBox(),
    await fraction.locator('> *').nth(1).boundingBox(),
  ]
  expect(above!.y + above!.height).toBeLessThanOrEqual(below!.y + 1)
})

test('an address leads to its line, on a fresh page and from the line itself', async ({ page }) => {
  await page.goto('./#working/feedback/P_pass')
  const asked = line(page, 'P_pass', 'feedback')
  await expect(asked).toBeInViewport({ timeout: PATIENCE })
  await expect(asked).toHaveClass(/here/u)
  await line(page, 'Rs', 'series-pass').getByRole('link').click()
  await expect(page).toHaveURL(/#working\/series-pass\/Rs$/u)
  await expect(line(page, 'Rs', 'series-pass')).toHaveClass(/here/u)
  await expect(asked).not.toHaveClass(/here/u)
  await page.goBack()
  await expect(asked).toHaveClass(/here/u)
})

test('the line of a part lights the part up in its circuit', async ({ page }) => {
  await openWorking(page)
  const ground = page.locator('article[data-topology="series-pass"] .ground[data-part="R1"] .reach').first()
  const fill = () => ground.evaluate((e) => getComputedStyle(e).fill)
  const dark = await fill()
  await line(page, 'Rs').hover()
  expect(await fill()).not.toBe(dark)
  await page.locator('h1').hover()
  expect(await fill()).toBe(dark)
  await line(page, 'Rs').getByRole('link').focus()
  expect(await fill()).not.toBe(dark)
})

test('the working is copied as plain lines', async ({ page, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write'])
  await openWorking(page)
  await page.getByRole('button', { name: 'Copy the shunt working as text' }).click()
  await expect(page.locator('article[data-topology="shunt"] [role="status"]')).toContainText('lines copied')
  const text = await page.evaluate(() => navigator.clipboard.readText())
  expect(text).toMatch(/^Shunt, /u)
  expect(text.split(/\r?\n/u)).toHaveLength((await page.locator('article[data-topology="shunt"] tr.line').count()) + 1)
  expect(text).toMatch(/Rs_max = \(Vin_min − .+ Source: /u)
})

test('on paper it is A4 upright, each design on a page of its own, and nothing is cut off at the right', async ({
  page,
}) => {
  await openWorking(page)
  // width of an A4 sheet less its margins, in pixels of 1/96 inch
  await page.setViewportSize({ width: Math.floor((190 / 25.4) * 96), height: 1000 })
  await page.emulateMedia({ media: 'print' })
  const right = await page.evaluate(() =>
    Math.max(
      ...[...document.querySelectorAll('.working td, .working th, .working math')].map(
        (e) => e.getBoundingClientRect().right,
      ),
    ),
  )
  expect(right).toBeLessThanOrEqual(Math.floor((190 / 25.4) * 96) + 1)
  await expect(page.getByRole('button', { name: 'Copy the shunt working as text' })).toBeHidden()
})

test.describe('390 px wide', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('nothing reaches out of the page sideways', async ({ page }) => {
    await openWorking(page)
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
  })
})
