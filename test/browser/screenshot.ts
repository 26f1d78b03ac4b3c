/** Writes the README's picture: the compare screen with the first example, proven, 1440 px wide, light. */
import { fileURLToPath } from 'node:url'
import { expect, test } from '@playwright/test'

const picture = fileURLToPath(new URL('../../public/screenshot.png', import.meta.url))

test.use({ viewport: { width: 1440, height: 1400 }, colorScheme: 'light', reducedMotion: 'reduce' })

test('takes the picture of the README', async ({ page }) => {
  await page.goto('./')
  // proven on screen, and the plots drawn for the same requirements
  await expect(page.locator('.compare[data-stage="proven"]:not(.old)')).toBeVisible({ timeout: 20_000 })
  const revision = await page.locator('.compare').getAttribute('data-revision')
  await expect(page.locator(`.canvas[data-revision="${revision}"]`)).toBeVisible()
  await page.screenshot({ path: picture })
})
