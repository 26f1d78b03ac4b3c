/** The screens of heat and ratings in the built page. */
import { AxeBuilder } from '@axe-core/playwright'
import { expect } from '@playwright/test'
import { openPage, PATIENCE, test } from './openPage.ts'

test.describe.configure({ timeout: 120_000 })
test.use({ reducedMotion: 'reduce' })

const SCREENS = [
  { name: 'Heat', title: 'From the junction to the air' },
  { name: 'Ratings', title: 'Every rating at its own worst corner' },
] as const

for (const colorScheme of ['light', 'dark'] as const) {
  for (const { name, title } of SCREENS) {
    test.describe(`${name} in the ${colorScheme} theme`, () => {
      test.use({ colorScheme })

      test('has a finding for a title, and the checker finds nothing serious', async ({ page }) => {
        await openPage(page)
        await page.getByRole('link', { name, exact: true }).click()
        await expect(page.getByRole('heading', { name: title })).toBeVisible({ timeout: PATIENCE })
        await expect(page.getByRole('heading', { level: 1 })).toContainText(/°C|ratings/u)
        const { violations } = await new AxeBuilder({ page }).analyze()
        const grave = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
        expect(grave.map(({ id, nodes }) => `${id} at ${nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([])
      })
    })
  }
}

test('another part is chosen for the picture, and the safe area is drawn', async ({ page }) => {
  await openPage(page)
  await page.getByRole('link', { name: 'Heat', exact: true }).click()
  const lane = page.locator('article[data-topology="series-pass"]').first()
  await expect(lane).toBeVisible({ timeout: PATIENCE })
  const first = await lane.locator('.corner').innerText()
  await lane.getByRole('combobox').selectOption({ index: 0 })
  await expect(lane.locator('.corner')).not.toHaveText(first)
  await expect(page.locator('.xy .canvas[data-revision]').first()).toBeVisible({ timeout: PATIENCE })
})

test.describe('390 px wide', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('nothing reaches out of either screen sideways', async ({ page }) => {
    await openPage(page)
    for (const { name, title } of SCREENS) {
      await page.goto(`./#${name.toLowerCase()}`)
      await expect(page.getByRole('heading', { name: title })).toBeVisible({ timeout: PATIENCE })
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
    }
  })
})
