/** The screens that stand on assumptions: failure rate, cost and board area. */
import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'
import { PATIENCE, openPage, test, type } from './openPage.ts'

test.describe.configure({ timeout: 90_000 })

/** Opens a screen by its link and waits until it shows three designs. */
async function openScreen(page: Page, title: string, design: string): Promise<void> {
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: title }).click()
  await expect(page.locator(design)).toHaveCount(3, { timeout: PATIENCE })
}

async function violations(page: Page): Promise<string[]> {
  const { violations: all } = await new AxeBuilder({ page }).analyze()
  return all
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, help, nodes }) => `${id}: ${help} at ${nodes.map((n) => n.target.join(' ')).join(', ')}`)
}

const title = (page: Page) => page.getByRole('heading', { level: 1 })

test('better screened parts lower every failure rate, and undo brings them back', async ({ page }) => {
  await openPage(page)
  await openScreen(page, 'Reliability', 'section.sheet')
  await expect(title(page)).toHaveText(/^By the handbook, .*FIT/u)
  const rates = async () =>
    (await page.locator('section.sheet h2 .sum b').allInnerTexts()).map((text) => parseFloat(text))
  const before = await rates()
  expect(before).toHaveLength(3)
  await page.locator('select[data-path="assumptions.quality"]').selectOption({ label: 'military, screened' })
  await expect(async () => {
    const after = await rates()
    after.forEach((rate, k) => expect(rate).toBeLessThan(before[k]! / 7))
  }).toPass({ timeout: PATIENCE })
  await page.keyboard.press('ControlOrMeta+z')
  await expect(async () => expect(await rates()).toEqual(before)).toPass({ timeout: PATIENCE })
})

test('a price of the user goes into the bill and the title, and stays over a reload', async ({ page }) => {
  await openPage(page)
  await openScreen(page, 'Cost & area', 'section.bill')
  const old = await title(page).innerText()
  expect(old).toMatch(/^On assumed prices and areas /u)
  await type(page, 'assumptions.prices.transistor-to-126', '9 EUR')
  await expect(title(page)).not.toHaveText(old, { timeout: PATIENCE })
  await expect(page.locator('section.bill .own').first()).toHaveText('yours')
  await page.reload()
  await expect(page.locator('input[data-path="assumptions.prices.transistor-to-126"]')).toHaveValue(/^9\sEUR$/u, {
    timeout: PATIENCE,
  })
})

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme, reducedMotion: 'reduce' })

    test('the checker finds nothing serious in the failure rates, equations open', async ({ page }) => {
      await openPage(page)
      await openScreen(page, 'Reliability', 'section.sheet')
      await page.locator('details.equations summary').click()
      expect(await violations(page)).toEqual([])
    })

    test('the checker finds nothing serious in the bills, with a refused entry', async ({ page }) => {
      await openPage(page)
      await openScreen(page, 'Cost & area', 'section.bill')
      await type(page, 'assumptions.prices.diode-do-35', 'cheap')
      await expect(page.locator('.problems li').filter({ visible: true })).toHaveCount(1)
      expect(await violations(page)).toEqual([])
    })
  })
}

test.describe('390 px wide', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('nothing reaches out of either screen sideways', async ({ page }) => {
    await openPage(page)
    for (const [name, design] of [
      ['Reliability', 'section.sheet'],
      ['Cost & area', 'section.bill'],
    ] as const) {
      // oxlint-disable-next-line no-await-in-loop -- one page, one screen after another
      await openScreen(page, name, design)
      // oxlint-disable-next-line no-await-in-loop
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
    }
  })
})
