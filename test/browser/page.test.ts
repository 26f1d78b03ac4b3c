/** The built page as a person first meets it: it answers, without a complaint and without asking anybody else. */
import { expect, test } from '@playwright/test'

test('the first example is proven in three lanes, and nothing is fetched from elsewhere', async ({ page, baseURL }) => {
  const complaints: string[] = []
  const elsewhere: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
  page.on('request', (request) => {
    if (!request.url().startsWith(baseURL!) && !/^(data|blob):/.test(request.url())) elsewhere.push(request.url())
  })

  await page.goto('./')
  await expect(page.locator('.compare[data-stage="proven"]')).toBeVisible({ timeout: 20_000 })
  await expect(page.locator('.lane')).toHaveCount(3)
  await expect(page.locator('.lane[data-topology="feedback"]')).toContainText(/Meets|Falls short/)
  const revision = await page.locator('.compare').getAttribute('data-revision')
  await expect(page.locator(`.canvas[data-revision="${revision}"]`)).toBeVisible()

  expect(elsewhere).toEqual([])
  expect(complaints).toEqual([])
})

test('another example replaces the first', async ({ page }) => {
  await page.goto('./')
  const answer = page.locator('.compare[data-stage="proven"]')
  await expect(answer).toBeVisible({ timeout: 20_000 })
  const before = Number(await answer.getAttribute('data-revision'))
  await page.getByRole('button', { name: 'Studies' }).click()
  await page.getByRole('button', { name: /Mill-race level switch/ }).click()
  await expect
    .poll(async () => Number(await answer.getAttribute('data-revision')), { timeout: 20_000 })
    .toBeGreaterThan(before)
  // the name in the closed menu does not count
  await expect(page.getByText('Mill-race level switch').filter({ visible: true }).first()).toBeVisible()
})
