/** What the page shows at once, after an edit, and for each of its examples. */
import { expect } from '@playwright/test'
import { answered, openPage, test, type, words } from './openPage.ts'

/** Which topology each example was made for, by the title in the page's own list. */
const MADE_FOR: Record<string, string> = {
  'Peat-bog gas logger': 'feedback',
  'Loom pick counter': 'series-pass',
  'Mill-race level switch': 'shunt',
}

test.describe.configure({ timeout: 90_000 })

test('the page opens with three lanes, each with a verdict', async ({ page }) => {
  await openPage(page)
  const lanes = page.locator('article[data-topology]')
  await expect(lanes).toHaveCount(3)
  for (const topology of ['shunt', 'series-pass', 'feedback']) {
    const badge = page.locator(`article[data-topology="${topology}"] .badge`)
    await expect(badge).toHaveText(/^\s*(Meets all \d+|Falls short \d+ of \d+|Cannot be built)\s*$/)
  }
  await expect(page.getByRole('heading', { level: 1 })).not.toHaveText('Where will the watts go?')
})

test('a value typed into an entry changes the answer', async ({ page }) => {
  const before = await openPage(page)
  const old = await words(page)
  await type(page, 'input.max', '15 V')
  await answered(page, before + 1)
  expect(await words(page)).not.toBe(old)
  await expect(page.locator('input[data-path="input.max"]')).toHaveValue(/^15\.0\sV$/u)
})

test('the arrow keys move a handle by a step, and the answer follows', async ({ page }) => {
  let revision = await openPage(page)
  const old = await words(page)
  const handle = page.locator('[data-handle="input.max"]')
  const value = async () => Number(await handle.getAttribute('aria-valuenow'))
  const start = await value()
  await handle.focus()
  await page.keyboard.press('ArrowRight')
  revision = await answered(page, revision + 1)
  const up = await value()
  expect(up).toBeGreaterThan(start)
  expect(await words(page)).not.toBe(old)
  await page.keyboard.press('ArrowLeft')
  await answered(page, revision + 1)
  expect(await value()).toBeCloseTo(start, 9)
  expect(await words(page)).toBe(old)
})

test('a handle stops at its neighbour', async ({ page }) => {
  const before = await openPage(page)
  const of = (key: string) => page.locator(`[data-handle="${key}"]`)
  await of('input.nominal').focus()
  await page.keyboard.press('End')
  await answered(page, before + 1)
  const highest = await of('input.max').getAttribute('aria-valuenow')
  await expect(of('input.nominal')).toHaveAttribute('aria-valuenow', highest!)
  await page.keyboard.press('ArrowRight')
  await expect(of('input.nominal')).toHaveAttribute('aria-valuenow', highest!)
})

test('the list holds the three examples, and every one can be opened', async ({ page }) => {
  let revision = await openPage(page)
  const menu = page.getByRole('button', { name: 'Studies' })
  await menu.click()
  const titles = await page.locator('.example b').allInnerTexts()
  expect(titles.toSorted()).toEqual(Object.keys(MADE_FOR).toSorted())
  await page.keyboard.press('Escape')
  // the first one is on screen already, so it comes last
  const headlines: string[] = []
  for (const title of [...titles.slice(1), titles[0]!]) {
    await menu.click()
    await page.locator('.example', { hasText: title }).click()
    revision = await answered(page, revision + 1)
    await expect(page.locator('.answer .title b')).toHaveText(title)
    headlines.push(await page.getByRole('heading', { level: 1 }).innerText())
  }
  expect(new Set(headlines).size).toBe(3)
})

for (const [title, winner] of Object.entries(MADE_FOR)) {
  test(`the headline names ${winner} first for the example "${title}"`, async ({ page }) => {
    const before = await openPage(page)
    const isOpen = (await page.locator('.answer .title b').innerText()) === title
    if (!isOpen) {
      await page.getByRole('button', { name: 'Studies' }).click()
      await page.locator('.example', { hasText: title }).click()
      await answered(page, before + 1)
    }
    const headline = page.getByRole('heading', { level: 1 })
    await expect(headline).toHaveText(new RegExp(`^(Only )?${winner} meets every requirement`, 'iu'))
  })
}
