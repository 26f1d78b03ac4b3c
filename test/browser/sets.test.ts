/** Studies side by side in the built page: by mouse, by keyboard, from a file; stopped and run again. */
import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'
import { openPage, PATIENCE, test, type } from './openPage.ts'

test.describe.configure({ timeout: 120_000 })
test.use({ reducedMotion: 'reduce' })

const title = (page: Page) => page.getByRole('heading', { level: 1 })
const heatRows = (page: Page) => page.locator('[data-figure="heat"] tr[data-topology-row]')

async function openSets(page: Page): Promise<void> {
  await openPage(page)
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Side by side' }).click()
  await expect(title(page)).toHaveText('Which study should stand beside this one?', { timeout: PATIENCE })
}

test('an example is set beside the study by mouse, and taken away again', async ({ page }) => {
  await openSets(page)
  await page.getByRole('checkbox', { name: /Loom/u }).check()
  await expect(title(page)).toHaveText(/^With “.*Loom.*” the .* design .*(leads|requirement)/iu, { timeout: PATIENCE })
  await expect(heatRows(page)).toHaveCount(3)
  // the input range differs, the ambient's path is there only if it differs too: every row shown says so in words
  const rows = page.locator('.requirements tr[data-path-row]')
  expect(await rows.count()).toBeGreaterThan(2)
  for (const row of await rows.all()) await expect(row.locator('b')).toContainText('differs:')
  await page.getByRole('checkbox', { name: /Loom/u }).uncheck()
  await expect(heatRows(page)).toHaveCount(0)
})

test('a state is set aside by keyboard, and the edited supply stands against it', async ({ page }) => {
  await openSets(page)
  await page.getByRole('button', { name: 'Set these requirements aside' }).focus()
  await page.keyboard.press('Enter')
  await expect(page.getByText('No requirement differs')).toBeVisible()
  await expect(heatRows(page).first().locator('.change')).toHaveText(/the same/u, { timeout: PATIENCE })
  await page.getByRole('button', { name: 'Edit requirements' }).focus()
  await page.keyboard.press('Enter')
  await type(page, 'input.max', '20 V')
  await expect(page.locator('tr[data-path-row="input.max"] td').first()).toHaveText(/20\.0\sV/u)
  await expect(title(page)).toHaveText(
    /^With the input at 10\.2\sV to 14\.4\sV the .* design runs [\d.]+\s?m?W cooler/u,
    {
      timeout: PATIENCE,
    },
  )
  const changes = await heatRows(page).locator('.change').allInnerTexts()
  expect(changes).toHaveLength(3)
  for (const change of changes) expect(change).toMatch(/▲ [\d.]+\s?m?W less, better/u)
})

test('bars of one figure share one scale, and their difference is the one that is told', async ({ page }) => {
  await openSets(page)
  await page.getByRole('checkbox', { name: /Mill/u }).check()
  await expect(heatRows(page).locator('.change').first()).toBeVisible({ timeout: PATIENCE })
  const bars = await heatRows(page)
    .locator('td')
    .evaluateAll((cells) =>
      cells.flatMap((cell) => {
        const bar = cell.querySelector('.track i')
        const [, number, prefix] = /([\d.]+)\s?(m?)W/u.exec(cell.querySelector('.value')?.textContent ?? '') ?? []
        return bar
          ? [{ share: parseFloat((bar as HTMLElement).style.width), watts: Number(number) * (prefix ? 1e-3 : 1) }]
          : []
      }),
    )
  expect(bars.length).toBeGreaterThan(3)
  // per cent of the axis a watt: one number for all bars, to the three figures of the texts
  const scales = bars.map(({ share, watts }) => share / watts)
  for (const scale of scales) expect(scale / scales[0]!).toBeCloseTo(1, 1)
})

test('a file that is no study is refused with its reasons, and one that is stands beside', async ({ page }) => {
  await openSets(page)
  const input = page.getByLabel('Open a study file beside it')
  await input.setInputFiles({ name: 'bad.json', mimeType: 'application/json', buffer: Buffer.from('{') })
  await expect(page.getByRole('alert').filter({ hasText: 'bad.json was not opened' })).toBeVisible()
  const study = {
    format: 'wattfork-study',
    version: 1,
    title: 'Invented: a long cable',
    requirements: {
      input: { min: 20, max: 27 },
      output: { voltage: 9, tolerance: 0.15 },
      load: { min: 0.005, max: 0.04 },
      ambient: { min: -20, max: 50 },
    },
  }
  await input.setInputFiles({
    name: 'cable.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(study)),
  })
  await expect(page.getByRole('checkbox', { name: 'Invented: a long cable cable.json' })).toBeChecked()
  await expect(title(page)).toContainText('With “Invented: a long cable”', { timeout: PATIENCE })
  await expect(page.getByRole('alert').filter({ hasText: 'was not opened' })).toHaveCount(0)
})

test('the others can be stopped while they are worked out, and run again', async ({ page }) => {
  await openSets(page)
  await page.getByRole('checkbox', { name: /Loom/u }).check()
  await page.getByRole('button', { name: 'Stop' }).click()
  await expect(page.getByText('Stopped.')).toBeVisible()
  await page.getByRole('button', { name: 'Run again' }).click()
  await expect(title(page)).toHaveText(/^With “/u, { timeout: PATIENCE })
})

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme })

    test('the checker finds nothing serious', async ({ page }) => {
      await openSets(page)
      await page.getByRole('checkbox', { name: /Loom/u }).check()
      await expect(heatRows(page).locator('.change').first()).toBeVisible({ timeout: PATIENCE })
      await page.locator('details.fold summary').first().click()
      const { violations } = await new AxeBuilder({ page }).analyze()
      const grave = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
      expect(grave.map(({ id, nodes }) => `${id} at ${nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([])
    })
  })
}

test.describe('390 px wide', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('the table scrolls in its own box, and the page does not', async ({ page }) => {
    await openSets(page)
    await page.getByRole('checkbox', { name: /Loom/u }).check()
    await page.getByRole('checkbox', { name: /Mill/u }).check()
    await expect(heatRows(page).locator('.change').first()).toBeVisible({ timeout: PATIENCE })
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
    const box = page.getByRole('region', { name: 'Studies side by side' })
    expect(await box.evaluate((e) => e.scrollWidth > e.clientWidth)).toBe(true)
  })
})
