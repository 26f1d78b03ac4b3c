/** What decides in the built page: weights by handle and by entry over a live ranking, and what would have to change. */
import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'
import { PATIENCE, test, type } from './openPage.ts'

test.describe.configure({ timeout: 240_000 })

const SEARCHED = 200_000

const ranking = (page: Page) => page.getByRole('list', { name: 'Ranking' })
const first = (page: Page) => ranking(page).locator('li').first().locator('.name')
const handle = (page: Page, name: string) => page.locator(`input[data-weight="${name}"]`)
const wordsOf = (page: Page, name: string) => page.locator('li', { has: handle(page, name) }).locator('.words')

/** Types a weight into the entry beside its handle. */
async function weigh(page: Page, name: string, text: string): Promise<void> {
  const entry = page.locator('li', { has: handle(page, name) }).locator('input[type="text"]')
  await entry.fill(text)
  await entry.press('Enter')
}

async function openDecides(page: Page, example?: string): Promise<void> {
  await page.goto('./#decides')
  await expect(ranking(page).locator('li')).toHaveCount(3, { timeout: PATIENCE })
  if (!example) return
  const before = await page.locator('.body').getAttribute('data-revision')
  await page.getByRole('button', { name: 'Studies' }).click()
  await page.locator('.example', { hasText: example }).click()
  await expect(page.locator('.body')).not.toHaveAttribute('data-revision', before!, { timeout: PATIENCE })
  // the first answer is not proven yet, and the ranking before it stays until then
  await expect(page.locator('main')).toHaveAttribute('aria-busy', 'false', { timeout: PATIENCE })
}

test('the winner changes just beyond a limit that is written, and not just before it', async ({ page }) => {
  await openDecides(page, 'Mill-race')
  await expect(first(page)).toHaveText('Shunt')
  const [, limit] = /up to ([\d.]+), above it feedback/u.exec(await wordsOf(page, 'heat').innerText())!
  // limits are written to a tenth
  await weigh(page, 'heat', String(Number(limit) - 0.1))
  await expect(handle(page, 'heat')).toHaveValue(String(Number((Number(limit) - 0.1).toFixed(1))))
  await expect(page.locator('main')).toHaveAttribute('aria-busy', 'false')
  await expect(first(page)).toHaveText('Shunt')
  await weigh(page, 'heat', String(Number(limit) + 0.1))
  await expect(first(page)).toHaveText('Feedback')
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Feedback leads by')
})

test('a handle moves the ranking by keys, one held gesture is one step back', async ({ page }) => {
  await openDecides(page, 'Mill-race')
  const points = () => ranking(page).locator('b').allInnerTexts()
  const before = await points()
  await handle(page, 'heat').focus()
  await page.keyboard.press('ArrowRight')
  await expect.poll(points).not.toEqual(before)
  await expect(handle(page, 'heat')).toHaveValue('2.1')
  await expect(page.getByRole('textbox', { name: 'Weight of Heat, worst corner' })).toHaveValue('2.1')
  await page.keyboard.press('End')
  await expect(first(page)).toHaveText('Feedback')
  await expect(handle(page, 'heat')).toHaveAttribute('aria-valuetext', /^10; feedback stays first/u)
  await page.keyboard.press('ControlOrMeta+z')
  await page.keyboard.press('ControlOrMeta+z')
  await expect.poll(points).toEqual(before)
})

test('a handle moves the ranking by the mouse while it is dragged', async ({ page }) => {
  await openDecides(page, 'Mill-race')
  const points = () => ranking(page).locator('b').allInnerTexts()
  const before = await points()
  const box = (await handle(page, 'heat').boundingBox())!
  const y = box.y + box.height / 2
  await page.mouse.move(box.x + 8 + 0.2 * (box.width - 16), y)
  await page.mouse.down()
  await page.mouse.move(box.x + 8 + 0.5 * (box.width - 16), y, { steps: 6 })
  // the hand is still on it
  await expect.poll(points).not.toEqual(before)
  await page.mouse.move(box.x + 8 + 0.95 * (box.width - 16), y, { steps: 6 })
  await page.mouse.up()
  await expect(first(page)).toHaveText('Feedback')
  // the whole drag is one step back
  await page.keyboard.press('ControlOrMeta+z')
  await expect.poll(points).toEqual(before)
})

test('a dominated design is named', async ({ page }) => {
  await openDecides(page, 'Mill-race')
  await expect(page.getByText(/^Series-pass is dominated: shunt is at least as good in every figure/u)).toBeVisible()
})

test('what would have to change is searched, shown as a button, and holds when it is pressed', async ({ page }) => {
  await openDecides(page)
  // wide enough that little stands in the way of the series-pass
  await page.getByRole('button', { name: 'Edit requirements' }).click()
  for (const [path, text] of [
    ['output.tolerance', '17 %'],
    ['limits.loadRegulation', '5 %'],
    ['limits.lineRegulation', '3.5 %'],
  ] as const)
    await type(page, path, text)
  await expect(page.locator('main')).toHaveAttribute('aria-busy', 'false', { timeout: PATIENCE })
  const way = page.locator('[data-way="series-pass"]')
  await expect(way).toContainText('to meet')
  await page.getByRole('button', { name: 'Search', exact: true }).click()
  const step = way.locator('button').first()
  await expect(step).toBeVisible({ timeout: SEARCHED })
  // the smallest is a volt or less of the lowest input
  await expect(step).toContainText(/^Lowest input voltage 10\.2 → 1[01]\.\d\sV$/u)
  const [, short] = /At ([\d.]+)\sV it does not yet/u.exec(await way.locator('.proof').first().innerText())!
  await step.click()
  await expect(way).not.toContainText('to meet', { timeout: PATIENCE })
  // a slightly smaller change does not do
  await type(page, 'input.min', `${short} V`)
  await expect(way).toContainText('to meet', { timeout: PATIENCE })
})

test('a search can be stopped', async ({ page }) => {
  await openDecides(page, 'Mill-race')
  await page.getByRole('button', { name: 'Search', exact: true }).click()
  await expect(page.getByText(/of at most \d+ studies sized/u)).toBeVisible({ timeout: PATIENCE })
  await page.getByRole('button', { name: 'Stop' }).click()
  await expect(page.getByText('Stopped before it was through.')).toBeVisible()
  await expect(page.getByRole('button', { name: 'Search', exact: true })).toBeVisible()
})

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme, reducedMotion: 'reduce' })

    test('the checker finds nothing serious', async ({ page }) => {
      await openDecides(page)
      const { violations } = await new AxeBuilder({ page }).analyze()
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
      expect(serious.map(({ id, nodes }) => `${id} at ${nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([])
    })
  })
}

test.describe('390 px wide', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('nothing reaches out of the page sideways', async ({ page }) => {
    await openDecides(page)
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
  })
})
