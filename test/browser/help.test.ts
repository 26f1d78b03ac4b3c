/** The first minutes: help beside the terms, the keys, and the line for who is here for the first time. */
import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'
import { BINDINGS } from '../../web/keys/keys.ts'
import { SCREENS } from '../../web/screens/names.ts'
import { answered, openPage, test, type } from './openPage.ts'

test.describe.configure({ timeout: 90_000 })

const sheet = (page: Page) => page.locator('[popover]:popover-open')
const mark = (page: Page, name: string) => page.getByRole('button', { name, exact: true })
const helpDialog = (page: Page) => page.getByRole('dialog', { name: 'Help', exact: true })

async function violations(page: Page): Promise<string[]> {
  const { violations: all } = await new AxeBuilder({ page }).analyze()
  return all
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id} at ${nodes.map((n) => n.target.join(' ')).join(', ')}`)
}

test('a term is explained by mouse and by keyboard, one at a time, and Escape gives the focus back', async ({
  page,
}) => {
  await openPage(page)
  const row = page.locator('.figures tbody tr').filter({ hasText: 'Line regulation' })
  const inRow = row.getByRole('button', { name: 'What is line regulation?' })
  const opacity = () => inRow.evaluate((e) => getComputedStyle(e).opacity)
  expect(await opacity()).toBe('0')
  await row.hover()
  expect(await opacity()).toBe('1')
  await inRow.click()
  await expect(sheet(page)).toContainText('Why it matters: It tells how much of an unsteady source')
  await page.keyboard.press('Escape')
  await expect(sheet(page)).toHaveCount(0)
  await expect(inRow).toBeFocused()

  for (const key of ['Enter', 'Space']) {
    await mark(page, 'What is ambient?').focus()
    await page.keyboard.press(key)
    await expect(sheet(page)).toContainText('coldest, hottest and usual')
    await page.keyboard.press('Escape')
    await expect(sheet(page)).toHaveCount(0)
    await expect(mark(page, 'What is ambient?')).toBeFocused()
  }

  await mark(page, 'What is ambient?').click()
  await mark(page, 'What are limits?').click()
  await expect(sheet(page)).toHaveCount(1)
  await expect(sheet(page)).toContainText('Output ripple')
  await page.locator('h1').click()
  await expect(sheet(page)).toHaveCount(0)
})

test('every row of figures and every group of the requirements has its help, large enough to hit', async ({ page }) => {
  await openPage(page)
  for (const hosts of ['.figures tbody tr', '.requirements .group']) {
    const all = page.locator(hosts)
    expect(await all.count()).toBeGreaterThan(5)
    const without = await all.evaluateAll((each) =>
      each.filter((e) => !e.querySelector('button[aria-label^="What "]')).map((e) => e.textContent),
    )
    expect(without).toEqual([])
  }
  const small = await page.locator('button[aria-label^="What "]').evaluateAll((all) =>
    all
      .map((e) => e.getBoundingClientRect())
      .filter(({ width, height }) => width < 24 || height < 24)
      .map(({ width, height }) => `${width} x ${height}`),
  )
  expect(small).toEqual([])
})

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme, reducedMotion: 'reduce' })
    test('the checker finds nothing serious with a help or the dialog open', async ({ page }) => {
      await openPage(page)
      await mark(page, 'What are limits?').click()
      await expect(sheet(page)).toHaveCSS('opacity', '1')
      expect(await violations(page)).toEqual([])
      await page.keyboard.press('Escape')
      await page.keyboard.press('?')
      await expect(helpDialog(page)).toBeVisible()
      expect(await violations(page)).toEqual([])
    })
  })
}

for (const width of [320, 390]) {
  test.describe(`${width} px wide`, () => {
    test.use({ viewport: { width, height: 844 }, hasTouch: true })
    test('no sheet of help reaches out of the page', async ({ page }) => {
      await openPage(page)
      const reach = () => page.evaluate(() => document.documentElement.scrollWidth)
      const before = await reach()
      await page.getByRole('button', { name: 'Edit requirements' }).click()
      for (const name of [
        'What is the input voltage?',
        'What are limits?',
        'What is the verdict?',
        'What is line regulation?',
      ]) {
        await mark(page, name).first().tap()
        await expect(sheet(page)).toHaveCSS('opacity', '1')
        const box = (await sheet(page).boundingBox())!
        await expect(sheet(page)).toBeInViewport()
        await expect(mark(page, name).first()).toBeInViewport()
        expect(box.x, name).toBeGreaterThanOrEqual(0)
        expect(box.x + box.width, name).toBeLessThanOrEqual(width)
        expect(await reach(), name).toBe(before)
        await page.keyboard.press('Escape')
      }
      if (width === 390) expect(before).toBe(390)
    })
  })
}

test('the dialog on ? tells exactly the keys that are bound, and closes on ? and Escape', async ({ page }) => {
  await openPage(page)
  await page.keyboard.press('?')
  const told = await helpDialog(page)
    .locator('[data-action]')
    .evaluateAll((rows) =>
      rows.map(
        (row) =>
          `${row.getAttribute('data-action')} ${[...row.querySelectorAll('kbd')].map((k) => k.textContent).join('+')}`,
      ),
    )
  expect(told).toEqual([
    'requirements R',
    'next N',
    'previous B',
    'studies S',
    'save F',
    'print P',
    'undo Ctrl+Z',
    'redo Ctrl+Y+Ctrl+Shift+Z',
    'help ?',
  ])
  expect(told).toHaveLength(BINDINGS.length)
  await page.keyboard.press('n')
  expect(new URL(page.url()).hash).toBe('')
  await page.keyboard.press('?')
  await expect(helpDialog(page)).toBeHidden()
  await page.getByRole('button', { name: 'Help and keys' }).click()
  await expect(helpDialog(page)).toBeVisible()
  await page.keyboard.press('Escape')
  await expect(helpDialog(page)).toBeHidden()
  await expect(page.getByRole('button', { name: 'Help and keys' })).toBeFocused()
})

test('each key does what the dialog says', async ({ page }) => {
  await page.addInitScript(() => {
    window.print = () => document.documentElement.setAttribute('data-printed', 'yes')
  })
  await openPage(page)
  const entry = page.locator('input[data-path="input.max"]')
  const before = await entry.inputValue()
  await type(page, 'input.max', '14.3')
  const after = await entry.inputValue()
  expect(after).not.toBe(before)
  // what is typed into a field is no key of the page
  await page.keyboard.press('n')
  expect(new URL(page.url()).hash).toBe('')
  await page.keyboard.press('Escape')
  await entry.blur()
  await page.keyboard.press('ControlOrMeta+z')
  await expect(entry).toHaveValue(before)
  await page.keyboard.press('ControlOrMeta+y')
  await expect(entry).toHaveValue(after)
  await page.keyboard.press('ControlOrMeta+z')
  await page.keyboard.press('ControlOrMeta+Shift+z')
  await expect(entry).toHaveValue(after)
  await answered(page)

  await page.keyboard.press('n')
  await expect(page).toHaveURL(new RegExp(`#${SCREENS[1]!.name}$`))
  await expect(page.getByRole('button', { name: 'Edit requirements' })).toBeVisible()
  await page.keyboard.press('r')
  await expect(page.locator('input[data-path="input.min"]')).toBeFocused()
  await page.locator('input[data-path="input.min"]').blur()
  await page.keyboard.press('b')
  await page.keyboard.press('b')
  await expect(page).toHaveURL(new RegExp(`#${SCREENS.at(-1)!.name}$`))
  await page.keyboard.press('s')
  await expect(page.getByRole('button', { name: 'Studies' })).toHaveAttribute('aria-expanded', 'true')
  await page.keyboard.press('Escape')
  const download = page.waitForEvent('download')
  await page.keyboard.press('f')
  expect((await download).suggestedFilename()).toMatch(/\.study\.json$/u)
  await page.keyboard.press('p')
  await expect(page.locator('html')).toHaveAttribute('data-printed', 'yes')
})

test('single letters can be switched off, for the next visit too', async ({ page }) => {
  await openPage(page)
  await page.getByRole('button', { name: 'Help and keys' }).click()
  await page.getByRole('checkbox').uncheck()
  await page.keyboard.press('Escape')
  await page.keyboard.press('n')
  await page.reload()
  await answered(page)
  await page.keyboard.press('n')
  await page.keyboard.press('?')
  await expect(helpDialog(page)).toBeHidden()
  expect(new URL(page.url()).hash).toBe('')
})

test('the first line leads to the highest input, stays over a reload, and goes for good with the first edit', async ({
  page,
}) => {
  await openPage(page)
  const line = page.getByRole('complementary', { name: 'First steps' })
  await page.reload()
  await answered(page)
  await line.getByRole('button', { name: 'highest input voltage' }).click()
  await expect(page.locator('input[data-path="input.max"]')).toBeFocused()
  await type(page, 'input.max', '14.3')
  await expect(line).toBeHidden()
  await page.reload()
  await answered(page)
  await expect(line).toBeHidden()
})

test('the first line can be closed where storage is denied', async ({ page }) => {
  await page.addInitScript(() => {
    for (const name of ['localStorage', 'sessionStorage']) {
      Object.defineProperty(window, name, {
        get: () => {
          throw new DOMException('denied', 'SecurityError')
        },
      })
    }
  })
  await openPage(page)
  const line = page.getByRole('complementary', { name: 'First steps' })
  await line.getByRole('button', { name: 'Close the first steps' }).click()
  await expect(line).toBeHidden()
})
