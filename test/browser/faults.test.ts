/** The screen of faults in the built page. */
import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'
import { openPage, PATIENCE, test } from './openPage.ts'

test.describe.configure({ timeout: 120_000 })
test.use({ reducedMotion: 'reduce' })

async function openFaults(page: Page): Promise<void> {
  await openPage(page)
  await page.getByRole('link', { name: 'Faults', exact: true }).click()
  await expect(page.getByRole('heading', { name: 'From open to short' })).toBeVisible({ timeout: PATIENCE })
}

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`Faults in the ${colorScheme} theme`, () => {
    test.use({ colorScheme })

    test('has a finding for a title, and the checker finds nothing serious', async ({ page }) => {
      await openFaults(page)
      await expect(page.getByRole('heading', { level: 1 })).toContainText(/on the load|above its band/u)
      for (const folded of await page.locator('main details').all()) await folded.locator('summary').first().click()
      const { violations } = await new AxeBuilder({ page }).analyze()
      const grave = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
      expect(grave.map(({ id, nodes }) => `${id} at ${nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([])
    })
  })
}

test('a failed part, the load line behind a table, and the cautions are told', async ({ page }) => {
  await openFaults(page)
  const shorted = page.getByRole('row').filter({ hasText: 'Pass transistor shorted' })
  await expect(shorted).toContainText(/\sV\b/u)
  await expect(shorted).toContainText('Fuse')
  await expect(page.locator('.xy .canvas[data-revision]')).toHaveCount(3)
  await page.getByText('Load lines as tables').click()
  await expect(page.locator('details[open] table').first()).toBeVisible()
  await expect(page.getByRole('heading', { name: 'Cautions' }).locator('..')).toContainText('tested on the bench')
})

test.describe('390 px wide', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('nothing reaches out of the page sideways', async ({ page }) => {
    await openPage(page)
    await page.goto('./#faults')
    await expect(page.getByRole('heading', { name: 'From open to short' })).toBeVisible({ timeout: PATIENCE })
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
  })
})
