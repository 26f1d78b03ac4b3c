/** The load profile in the built page: by mouse, by keyboard, from a table. */
import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'
import { openPage, PATIENCE, test, type } from './openPage.ts'

test.describe.configure({ timeout: 120_000 })
test.use({ reducedMotion: 'reduce' })

const title = (page: Page) => page.getByRole('heading', { level: 1 })
const row = (page: Page, k: number) => page.locator(`input[data-path="profile.${k}.load"]`)

async function openDay(page: Page): Promise<void> {
  await openPage(page)
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Day', exact: true }).click()
  await expect(title(page)).toHaveText(/^No load profile yet/u, { timeout: PATIENCE })
}

/** Watt-hours in a text such as "12.3 mWh, 44.3 J". */
function wattHours(text: string): number {
  const [, number = '', prefix = ''] = /([\d.]+)\s?([mkµ]?)Wh/u.exec(text) ?? []
  return Number(number) * ({ m: 1e-3, k: 1e3, µ: 1e-6 }[prefix] ?? 1)
}

/** In, to the load and heat of every design, off the table. */
async function energies(page: Page): Promise<number[][]> {
  const rows = page.locator('table.energies tbody tr')
  const cells = (name: string) =>
    rows
      .filter({ has: page.getByRole('rowheader', { name, exact: true }) })
      .getByRole('cell')
      .allInnerTexts()
  const all = [await cells('In'), await cells('To the load'), await cells('Heat')]
  return [0, 1, 2].map((k) => all.map((texts) => wattHours(texts[k] ?? '')))
}

async function expectBalance(page: Page): Promise<number[][]> {
  await expect(page.locator('table.energies')).toBeVisible({ timeout: PATIENCE })
  const all = await energies(page)
  for (const [into = NaN, out = NaN, heat = NaN] of all) {
    expect(into).toBeGreaterThan(0)
    // three figures each: half a unit of the last place of three numbers
    expect(Math.abs(into - out - heat) / into).toBeLessThan(0.015)
  }
  return all
}

test('rows are added, filled in, refused, taken out and undone by mouse', async ({ page }) => {
  await openDay(page)
  await page.getByRole('button', { name: 'Start with a whole day at nominal load' }).click()
  await expect(row(page, 0)).toBeFocused()
  const whole = await expectBalance(page)
  await expect(title(page)).toHaveText(/^Over this day .* turns .*Wh to heat;/u)
  await type(page, 'profile.0.share', '10 %')
  await expect(page.locator('tr.rest')).toContainText('90.0')
  await expect(async () => {
    const after = await energies(page)
    after.forEach(([into], k) => expect(into).toBeLessThan(whole[k]![0]!))
  }).toPass({ timeout: PATIENCE })
  await page.getByRole('button', { name: 'Add a row' }).click()
  await expect(page.locator('input[data-path="profile.1.share"]')).toHaveValue(/^90\s%$/u)
  await type(page, 'profile.0.share', '20 %')
  await expect(page.getByRole('alert').filter({ hasText: 'sum to 110' })).toBeVisible()
  await type(page, 'profile.1.share', '80 %')
  await expect(page.getByRole('alert').filter({ hasText: 'sum to' })).toHaveCount(0)
  await expect(page.locator('input[data-path="profile.0.share"]')).toHaveValue(/^20\s%$/u)
  await page.getByRole('button', { name: 'Take out row 1' }).click()
  await expect(row(page, 1)).toHaveCount(0)
  await title(page).click()
  await page.keyboard.press('ControlOrMeta+z')
  await expect(row(page, 1)).toBeVisible()
  await expectBalance(page)
})

test('a day is told by keyboard alone', async ({ page }) => {
  await openDay(page)
  await page.getByRole('button', { name: 'Start with a whole day' }).focus()
  await page.keyboard.press('Enter')
  await expect(row(page, 0)).toBeFocused()
  await page.keyboard.press('Tab')
  await page.keyboard.type('25 %')
  await page.keyboard.press('Tab')
  await page.keyboard.type('30')
  await page.keyboard.press('Enter')
  await expect(page.locator('tr.rest')).toContainText('75.0')
  await page.keyboard.press('Tab')
  await expect(page.getByRole('button', { name: 'Take out row 1' })).toBeFocused()
  await page.keyboard.press('Tab')
  await page.keyboard.press('Enter')
  await expect(row(page, 1)).toBeFocused()
  await expectBalance(page)
  await page.keyboard.press('Tab')
  await page.keyboard.press('Tab')
  await page.keyboard.press('Tab')
  await page.keyboard.press('Enter')
  await expect(row(page, 1)).toHaveCount(0)
  await expect(page.getByRole('button', { name: 'Take out row 1' })).toBeFocused()
})

test('a table is taken from a paste and from a file, and a bad one changes nothing', async ({ page }) => {
  await openDay(page)
  const load = await page.evaluate(() => document.querySelectorAll('input[data-path^="profile."]').length)
  expect(load).toBe(0)
  await page.getByLabel('or paste it here').fill('current;share;temperature\n5 mA;87,5 %;\n50 mA;12,5 %;40')
  await page.keyboard.press('ControlOrMeta+Enter')
  await expect(row(page, 1)).toHaveValue(/^50\.0\smA$/u)
  await expectBalance(page)
  await page.getByLabel('Open a CSV file').setInputFiles({
    name: 'bad.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from('5 mA,50 %\n50 mA,often'),
  })
  const alert = page.getByRole('alert').filter({ hasText: 'Nothing was taken' })
  await expect(alert).toContainText('Line 2, column 2, share of time: “often” is not a number')
  await expect(row(page, 1)).toHaveValue(/^50\.0\smA$/u)
  await page.getByLabel('Open a CSV file').setInputFiles({
    name: 'good.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from('5 mA,50 %\n4 mA,25 %\n50 mA,25 %,35'),
  })
  await expect(row(page, 2)).toHaveValue(/^50\.0\smA$/u)
  await expect(alert).toHaveCount(0)
  await page.reload()
  await expect(row(page, 2)).toHaveValue(/^50\.0\smA$/u, { timeout: PATIENCE })
})

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme })

    test('the checker finds nothing serious', async ({ page }) => {
      await openDay(page)
      await page.getByLabel('or paste it here').fill('5 mA,70 %\n50 mA,20 %')
      await page.getByRole('button', { name: 'Take these rows' }).click()
      await expectBalance(page)
      await type(page, 'profile.0.load', 'much')
      await page.locator('details.data summary').click()
      const { violations } = await new AxeBuilder({ page }).analyze()
      const grave = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
      expect(grave.map(({ id, nodes }) => `${id} at ${nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([])
    })
  })
}

test.describe('390 px wide', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('nothing reaches out of the screen sideways', async ({ page }) => {
    await openDay(page)
    await page.getByRole('button', { name: 'Start with a whole day' }).click()
    await expectBalance(page)
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
  })
})
