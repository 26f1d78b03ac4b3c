/** Narrow pages, and the rules of accessibility that a program can check. */
import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'
import { openPage, test, type } from './openPage.ts'

test.describe.configure({ timeout: 90_000 })

/** What the checker calls serious or critical, with the places where it is. */
async function violations(page: Page): Promise<string[]> {
  const { violations: all } = await new AxeBuilder({ page }).analyze()
  return all
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, help, nodes }) => `${id}: ${help} at ${nodes.map((n) => n.target.join(' ')).join(', ')}`)
}

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme, reducedMotion: 'reduce' })

    test('the checker finds nothing serious', async ({ page }) => {
      await openPage(page)
      expect(await violations(page)).toEqual([])
    })

    test('the checker finds nothing serious with a refused entry and the menu open', async ({ page }) => {
      await openPage(page)
      await type(page, 'input.max', 'much')
      await page.getByRole('button', { name: 'Studies' }).click()
      await expect(page.locator('.example').first()).toBeVisible()
      expect(await violations(page)).toEqual([])
    })
  })
}

test.describe('390 px wide', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('nothing reaches out of the page sideways, requirements folded or open', async ({ page }) => {
    await openPage(page)
    const width = () => page.evaluate(() => document.documentElement.scrollWidth)
    expect(await width()).toBe(390)
    await page.getByRole('button', { name: 'Edit requirements' }).click()
    await expect(page.locator('input[data-path="input.max"]')).toBeVisible()
    expect(await width()).toBe(390)
  })

  test('every screen is one step away, by the list of all of them', async ({ page }) => {
    await openPage(page)
    await page.getByRole('button', { name: 'All screens' }).click()
    const list = page.locator('nav [popover]')
    expect(await violations(page)).toEqual([])
    await list.getByRole('link', { name: 'Brief' }).click()
    await expect(list).toBeHidden()
    await expect(page).toHaveURL(/#brief$/u)
  })
})
