/** The map of where each design wins, worked by keyboard and by mouse. */
import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'
import { openPage, test } from './openPage.ts'

/** A map sizes hundreds of designs, and other work may share the machine. */
const WORKED_OUT = 240_000

test.describe.configure({ timeout: 300_000 })

const map = (page: Page) => page.getByRole('application', { name: /^Where each wins/u })
const words = (page: Page) => page.locator('#map-cell')

async function openMap(page: Page): Promise<void> {
  await openPage(page)
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Where each wins' }).click()
  await page.getByLabel('Cells each way').selectOption('25')
  await expect(page.locator('[data-state="ready"]')).toBeVisible({ timeout: WORKED_OUT })
  await expect(map(page)).toBeVisible()
}

test('the keyboard walks the map, takes a cell over, and undo brings the requirements back', async ({ page }) => {
  await openMap(page)
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(/of this map|anywhere on this map/u)
  const load = page.locator('input[data-path="load.max"]')
  const before = await load.inputValue()
  const start = await words(page).innerText()
  await map(page).focus()
  await page.keyboard.press('ArrowRight')
  await expect(words(page)).not.toHaveText(start)
  await page.keyboard.press('Shift+ArrowDown')
  await page.keyboard.press('Enter')
  await expect(load).not.toHaveValue(before)
  const [, taken] = /Most load current ([^,]+),/u.exec(await words(page).innerText())!
  expect((await load.inputValue()).replaceAll(/\s/gu, '')).toBe(taken!.replaceAll(/\s/gu, ''))
  await page.keyboard.press('ControlOrMeta+z')
  await expect(load).toHaveValue(before)
})

test('the mouse reads a cell and takes it over, and the cells stand in a table', async ({ page }) => {
  await openMap(page)
  const load = page.locator('input[data-path="load.max"]')
  const before = await load.inputValue()
  const box = (await map(page).boundingBox())!
  await page.mouse.move(box.x + 0.1 * box.width, box.y + 0.9 * box.height)
  const there = await words(page).innerText()
  await page.mouse.move(box.x + 0.8 * box.width, box.y + 0.2 * box.height)
  await expect(words(page)).not.toHaveText(there)
  await page.mouse.click(box.x + 0.8 * box.width, box.y + 0.2 * box.height)
  await expect(load).not.toHaveValue(before)
  await page.getByText('Map as a table').click()
  // the map of the requirements taken over is another one
  await expect(page.locator('[data-state="ready"]')).toBeVisible({ timeout: WORKED_OUT })
  await expect.poll(() => page.locator('details tbody tr').filter({ visible: true }).count()).toBeGreaterThan(8)
  const { violations } = await new AxeBuilder({ page }).analyze()
  expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical').map(({ id }) => id)).toEqual(
    [],
  )
})

test('a map that is being worked out can be stopped', async ({ page }) => {
  await openPage(page)
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Where each wins' }).click()
  await page.getByLabel('Cells each way').selectOption('100')
  await page.getByRole('button', { name: 'Stop' }).click()
  await expect(page.getByText('Stopped; the map is coarse')).toBeVisible()
})
