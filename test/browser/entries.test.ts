/** Entries that are refused, what a reload keeps, and the way back by keyboard. */
import { expect, type Page } from '@playwright/test'
import { answered, openPage, test, type, words } from './openPage.ts'

test.describe.configure({ timeout: 90_000 })

const entry = (page: Page, path: string) => page.locator(`input[data-path="${path}"]`)
const problem = (page: Page) => page.getByRole('alert').filter({ visible: true }).locator('li')

test('text in a number is refused by name, and the last comparison stays', async ({ page }) => {
  const before = await openPage(page)
  const old = await words(page)
  await type(page, 'load.max', 'plenty')
  await expect(problem(page)).toHaveCount(1)
  await expect(problem(page)).toContainText('Most load current')
  await expect(problem(page)).toContainText('plenty')
  await expect(entry(page, 'load.max')).toHaveAttribute('aria-invalid', 'true')
  await expect(entry(page, 'load.max')).toHaveValue('plenty')
  expect(await answered(page)).toBe(before)
  expect(await words(page)).toBe(old)
})

test('a value out of range is refused with the value and the allowed range', async ({ page }) => {
  const before = await openPage(page)
  const old = await words(page)
  await type(page, 'input.max', '140 V')
  await expect(problem(page)).toContainText(/Highest input voltage.*140\sV.*1(\.00)?\sV to 100\sV/u)
  expect(await answered(page)).toBe(before)
  expect(await words(page)).toBe(old)
})

test('a lowest value above the highest is refused with both, and taken once the highest allows it', async ({
  page,
}) => {
  const before = await openPage(page)
  const old = await words(page)
  await type(page, 'input.min', '16 V')
  await expect(problem(page)).toContainText(/Lowest input voltage.*16(\.0)?\sV/u)
  // the highest value of the first example is the bound that the message must name
  await expect(problem(page)).toContainText(/14\.4\sV/u)
  expect(await answered(page)).toBe(before)
  expect(await words(page)).toBe(old)
  // nominal lies between the two, so it must move as well
  await type(page, 'input.max', '20 V')
  await type(page, 'input.nominal', '18 V')
  await expect(problem(page)).toHaveCount(0)
  await answered(page, before + 1)
  await expect(entry(page, 'input.min')).toHaveValue(/^16\.0\sV$/u)
  expect(await words(page)).not.toBe(old)
})

test('a reload keeps the last study and an unfinished entry', async ({ page }) => {
  const before = await openPage(page)
  await type(page, 'output.voltage', '6 V')
  await answered(page, before + 1)
  const kept = await words(page)
  await type(page, 'ambient.max', 'warm')
  await expect(problem(page)).toContainText('warm')
  const said = await problem(page).innerText()
  await page.reload()
  await answered(page)
  await expect(entry(page, 'output.voltage')).toHaveValue(/^6\.00\sV$/u)
  await expect(entry(page, 'ambient.max')).toHaveValue('warm')
  expect(await problem(page).innerText()).toBe(said)
  expect(await words(page)).toBe(kept)
})

test('an edit is undone and redone by keyboard', async ({ page }) => {
  const first = await openPage(page)
  const old = await words(page)
  await type(page, 'output.voltage', '6 V')
  const second = await answered(page, first + 1)
  const edited = await words(page)
  expect(edited).not.toBe(old)
  // inside an entry the keys are the browser's own undo of the text
  await page.locator('[data-handle="input.max"]').focus()
  await page.keyboard.press('ControlOrMeta+z')
  const third = await answered(page, second + 1)
  expect(await words(page)).toBe(old)
  await page.keyboard.press('ControlOrMeta+Shift+z')
  await answered(page, third + 1)
  expect(await words(page)).toBe(edited)
})
