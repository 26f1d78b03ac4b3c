/** Requirements that no circuit of the list can serve: every screen says so, and none claims to be at work or stopped. */
import { expect } from '@playwright/test'
import { answered, openPage, test } from './openPage.ts'

test.describe.configure({ timeout: 120_000 })

const OUT_OF_REACH = JSON.stringify({
  format: 'wattfork-study',
  version: 1,
  title: 'Out of reach',
  requirements: {
    input: { min: 5.1, max: 90 },
    output: { voltage: 5, tolerance: 0.001 },
    load: { min: 0, max: 9 },
    ambient: { min: -55, max: 125 },
    limits: { loadRegulation: 0.0001, survivesShort: true },
  },
})

test('where nothing can be built, every screen says so and leads back to the reasons', async ({ page }) => {
  const revision = await openPage(page)
  await page.evaluate((content) => {
    const clipboardData = new DataTransfer()
    clipboardData.setData('text/plain', content)
    document.body.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }))
  }, OUT_OF_REACH)
  await answered(page, revision + 1)
  const title = page.getByRole('heading', { level: 1 })
  await expect(title).toHaveText('None of the three can be built to these requirements.')
  for (const name of ['What decides', 'Input range', 'Heat', 'Ratings', 'Spread', 'Faults', 'Working']) {
    // oxlint-disable-next-line no-await-in-loop -- one screen after another
    await page.locator('.groups').getByRole('link', { name, exact: true }).click()
    // oxlint-disable-next-line no-await-in-loop -- as above
    await expect(title, name).toHaveText('None of the three can be built to these requirements.')
    // oxlint-disable-next-line no-await-in-loop -- as above
    await expect(page.getByText('Stopped.'), name).toHaveCount(0)
  }
  await page.getByRole('main').getByRole('link', { name: 'Compare' }).click()
  await expect(
    page
      .getByText('Lower the', { exact: false })
      .or(page.getByText('Raise', { exact: false }))
      .first(),
  ).toBeVisible()
})
