/** The spread in the built page: boards drawn in real workers, the settings, the stop, the tables, and access. */
import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'
import { PATIENCE, test } from './openPage.ts'

test.describe.configure({ timeout: 120_000 })

const yields = (page: Page) => page.locator('.spread .yield')

/** Opens the screen and waits until the boards of its settings are on it. */
async function openSpread(page: Page): Promise<void> {
  await page.goto('./#spread')
  await drawn(page)
}

async function drawn(page: Page): Promise<void> {
  await expect(page.getByText('The same seed draws the same boards anywhere.')).toBeVisible({ timeout: PATIENCE })
  await expect(yields(page)).toHaveCount(3, { timeout: PATIENCE })
}

test('10,000 boards of each topology are drawn, and the same seed gives the same answer again', async ({ page }) => {
  await openSpread(page)
  await expect(page.getByRole('heading', { level: 1 })).toContainText(/band\b.*\.$/u)
  const first = await yields(page).allInnerTexts()
  for (const text of first) expect(text).toMatch(/10,000 boards inside, 95\s%\ssure/u)
  const seed = page.getByLabel('Seed')
  await seed.fill('2')
  await seed.press('Enter')
  await expect.poll(() => yields(page).allInnerTexts(), { timeout: PATIENCE }).not.toEqual(first)
  await seed.fill('1')
  await seed.press('Enter')
  await expect.poll(() => yields(page).allInnerTexts(), { timeout: PATIENCE }).toEqual(first)
})

test('what is no seed is put back', async ({ page }) => {
  await openSpread(page)
  const seed = page.getByLabel('Seed')
  await seed.fill('-3.5')
  await seed.press('Enter')
  await expect(seed).toHaveValue('1')
})

test('a long run can be stopped; its boards so far are shown, and it can be run again', async ({ page }) => {
  await openSpread(page)
  await page.getByLabel('Boards of each').selectOption('100,000')
  const status = page.locator('.status')
  await expect(status).toContainText(/[1-9][\d,]* of 300,000 boards solved/u, { timeout: PATIENCE })
  await status.getByRole('button', { name: 'Stop' }).click()
  await expect(status).toContainText(/Stopped after [\d,]+ of 100,000 boards of each topology/u)
  const stopped = /after ([\d,]+)/u.exec(await status.innerText())![1]!
  await expect(yields(page).first()).toContainText(`${stopped} boards inside`)
  await status.getByRole('button', { name: 'Run again' }).click()
  await expect(status).toContainText('of 300,000 boards solved', { timeout: PATIENCE })
})

test('the figure that is moved can be chosen, and the tables hold the numbers', async ({ page }) => {
  await openSpread(page)
  await page.getByRole('group', { name: 'Figure' }).getByRole('button', { name: 'heat' }).click()
  await expect(page.getByRole('heading', { name: 'What moves the heat' })).toBeVisible()
  await expect(page.locator('.moves tbody .value').first()).toContainText('W')
  await page.getByText('All of it as tables').click()
  const table = page.getByRole('region', { name: 'Output voltage: boards, root-sum-square and corners' })
  await expect(table.getByRole('row', { name: /^Boards/u })).toContainText('10,000')
  await expect(table.getByRole('row', { name: /^Corners, lowest/u })).toContainText('V')
})

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme, reducedMotion: 'reduce' })

    test('the checker finds nothing serious, tables open', async ({ page }) => {
      await openSpread(page)
      await page.getByText('All of it as tables').click()
      const { violations } = await new AxeBuilder({ page }).analyze()
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
      expect(serious.map(({ id, nodes }) => `${id} at ${nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([])
    })
  })
}

test.describe('390 px wide', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('nothing reaches out of the page sideways', async ({ page }) => {
    await openSpread(page)
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
  })
})
