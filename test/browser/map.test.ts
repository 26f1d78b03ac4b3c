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
  await page.getByLabel('Across, requirement').selectOption('load.max')
  await page.getByLabel('Upwards, requirement').selectOption('input.max')
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
  const table = page.getByRole('region', { name: 'Cells of one row of the map' })
  await expect(table.locator('tbody tr')).toHaveCount(25)
  const caption = await table.locator('caption').innerText()
  // the other rows by keyboard
  await page.getByRole('combobox', { name: 'Highest input voltage', exact: true }).focus()
  await page.keyboard.press('Home')
  await expect(table.locator('caption')).not.toHaveText(caption)
  await expect(page.getByRole('button', { name: 'Row below' })).toBeDisabled()
  const { violations } = await new AxeBuilder({ page }).analyze()
  expect(violations.filter(({ impact }) => impact === 'serious' || impact === 'critical').map(({ id }) => id)).toEqual(
    [],
  )
})

test('axes are chosen for the person first, a map that is being worked out is read and used, and it can be stopped', async ({
  page,
}) => {
  await openPage(page)
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Where each wins' }).click()
  await expect(page.getByText('Looking along each requirement for boundaries.')).toBeVisible()
  await expect(page.getByText('Axes chosen for you')).toBeVisible({ timeout: WORKED_OUT })
  await page.getByLabel('Cells each way').selectOption('100')
  await expect(map(page)).toBeVisible({ timeout: WORKED_OUT })
  // the page goes on working beside the run
  const read = await words(page).innerText()
  await map(page).focus()
  await page.keyboard.press('Shift+ArrowLeft')
  await expect(words(page)).not.toHaveText(read)
  await page.getByRole('button', { name: 'Edit requirements' }).click()
  await expect(page.locator('input[data-path="load.max"]')).toBeVisible()
  await expect(page.locator('[data-state="busy"]')).toBeVisible()
  await page.getByRole('button', { name: 'Stop' }).click()
  await expect(page.getByText('Stopped; the map is coarse')).toBeVisible()
})
