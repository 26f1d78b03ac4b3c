/** The circuits in the built page: live values, a part that lights up everywhere, a file of its own. */
import { readFile } from 'node:fs/promises'
import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Locator, type Page } from '@playwright/test'
import { openPage, PATIENCE, test } from './openPage.ts'

test.describe.configure({ timeout: 120_000 })
test.use({ reducedMotion: 'reduce' })

async function openCircuit(page: Page): Promise<void> {
  await openPage(page)
  await page.getByRole('link', { name: 'Circuit', exact: true }).click()
  await expect(page.locator('svg.circuit')).toHaveCount(3, { timeout: PATIENCE })
}

const panel = (page: Page, topology: string): Locator => page.locator(`article[data-topology="${topology}"]`)
const background = (of: Locator): Promise<string> => of.evaluate((e) => getComputedStyle(e).backgroundColor)
const fill = (of: Locator): Promise<string> => of.evaluate((e) => getComputedStyle(e).fill)
const isLit = async (page: Page, topology: string, part: string): Promise<[row: boolean, symbol: boolean]> => [
  (await background(panel(page, topology).locator(`tr[data-part="${part}"]`))) !== 'rgba(0, 0, 0, 0)',
  (await fill(panel(page, topology).locator(`.ground[data-part="${part}"] .reach`).first())) !== 'rgba(0, 0, 0, 0)',
]

for (const colorScheme of ['light', 'dark'] as const)
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme })

    test('the checker finds nothing serious', async ({ page }) => {
      await openCircuit(page)
      const { violations } = await new AxeBuilder({ page }).analyze()
      const grave = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
      expect(grave.map(({ id, nodes }) => `${id} at ${nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([])
    })
  })

test('a part under the pointer lights up in diagram and table, of its own topology alone', async ({ page }) => {
  await openCircuit(page)
  await panel(page, 'series-pass').locator('.part[data-part="Q1"] .name').hover()
  expect(await isLit(page, 'series-pass', 'Q1')).toEqual([true, true])
  expect(await isLit(page, 'series-pass', 'R1')).toEqual([false, false])
  expect(await isLit(page, 'feedback', 'Q1')).toEqual([false, false])
  await panel(page, 'feedback').locator('tr[data-part="R1"]').hover()
  expect(await isLit(page, 'feedback', 'R1')).toEqual([true, true])
  expect(await isLit(page, 'series-pass', 'Q1')).toEqual([false, false])
  await page.locator('h1').hover()
  expect(await isLit(page, 'feedback', 'R1')).toEqual([false, false])
})

test('on Compare a part of the list lights up in the flow of its lane', async ({ page }) => {
  await openPage(page)
  const key = page.locator('.lane[data-topology="series-pass"] .keys [data-part="Q1"]')
  const dark = await background(key)
  await page.locator('.list[data-topology="series-pass"] li[data-part="Q1"]').hover()
  expect(await background(key)).not.toBe(dark)
  await page.locator('.list[data-topology="feedback"] li[data-part="Q1"]').hover()
  expect(await background(key)).toBe(dark)
})

test('the keyboard reaches every part of a diagram and lights it up', async ({ page }) => {
  await openCircuit(page)
  await panel(page, 'shunt').locator('.part[data-part="R1"]').focus()
  expect(await isLit(page, 'shunt', 'R1')).toEqual([true, true])
  await page.keyboard.press('Tab')
  const next = await page.evaluate(() => document.activeElement?.getAttribute('data-part'))
  expect(next).not.toBe('R1')
  expect(next).toBeTruthy()
  expect(await isLit(page, 'shunt', 'R1')).toEqual([false, false])
})

test('values follow the cursor, and stay on the same cursor as Compare', async ({ page }) => {
  await openCircuit(page)
  const input = panel(page, 'shunt').locator('.node .volts').first()
  const current = panel(page, 'shunt').locator('.part[data-part="R1"] .current')
  const [volts, amperes] = [await input.textContent(), await current.textContent()]
  await page.getByRole('slider', { name: 'Input voltage looked at' }).focus()
  await page.keyboard.press('End')
  await expect(input).not.toHaveText(volts!)
  await expect(current).not.toHaveText(amperes!)
  const there = (await input.textContent())!
  await page.getByRole('link', { name: 'Compare', exact: true }).click()
  await expect(page.getByRole('slider', { name: 'Input voltage looked at' })).toHaveText(there)
})

test('a circuit is saved as a picture that stands by itself', async ({ page, context }) => {
  await openCircuit(page)
  const download = page.waitForEvent('download')
  await panel(page, 'feedback').getByRole('button', { name: 'Save this circuit as SVG' }).click()
  const file = await download
  expect(file.suggestedFilename()).toMatch(/^[a-z0-9-]+-feedback\.svg$/u)
  const text = await readFile(await file.path(), 'utf8')
  // opened alone: it has a size, and its strokes have a colour without the page
  const alone = await context.newPage()
  await alone.setContent(`<!doctype html><body style="margin:0">${text}</body>`)
  const wire = alone.locator('svg .wire').first()
  expect(await wire.evaluate((e) => getComputedStyle(e).stroke)).toBe('rgb(18, 35, 38)')
  const box = (await alone.locator('svg').boundingBox())!
  expect(box.width).toBeGreaterThan(300)
  expect(await alone.locator('svg text').allTextContents()).toEqual(
    await panel(page, 'feedback').locator('svg text').allTextContents(),
  )
  await alone.close()
})

test.describe('390 px wide', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('the diagrams fit, with texts that can be read', async ({ page }) => {
    await openCircuit(page)
    for (const width of [320, 390]) {
      await page.setViewportSize({ width, height: 844 })
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width)
    }
    for (const text of await page.locator('svg.circuit text').all()) {
      const height = await text.evaluate((e) => {
        const { a } = (e as SVGTextElement).getScreenCTM()!
        return a * Number.parseFloat(getComputedStyle(e).fontSize)
      })
      // pixels; common practice, no source
      expect(height).toBeGreaterThan(10.5)
    }
  })
})
