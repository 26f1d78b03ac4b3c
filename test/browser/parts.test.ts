/** The parts screen: a pin is sized around and undone, and the parts go out as a table. */
import { readFile } from 'node:fs/promises'
import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'
import { PATIENCE, openPage, test, type } from './openPage.ts'

test.describe.configure({ timeout: 90_000 })

async function openParts(page: Page): Promise<void> {
  await openPage(page)
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Parts' }).click()
  await expect(page.locator('section.parts tfoot')).toHaveCount(3, { timeout: PATIENCE })
}

const feedback = (page: Page) => page.locator('section.parts[data-topology="feedback"]')
const row = (page: Page, id: string) =>
  feedback(page)
    .locator('tbody')
    .filter({ has: page.locator('.id', { hasText: new RegExp(`^${id}$`, 'u') }) })

test('a pinned value is taken, its partner follows, its cost is told, and undo takes it back', async ({ page }) => {
  await openParts(page)
  const upper = await row(page, 'R1').locator('.main').innerText()
  const lower = await row(page, 'R2').locator('.main').innerText()
  await type(page, 'pins.feedback.R1', '4k801')
  await expect(row(page, 'R1').locator('.main')).toHaveText('4k801', { timeout: PATIENCE })
  await expect(row(page, 'R2').locator('.main')).not.toHaveText(lower)
  await expect(feedback(page).locator('.pins li')).toContainText(
    /^R1 4\.801\skΩ\s+Pinning R1 to 4\.801\skΩ .*; without it R1 /u,
    {
      timeout: PATIENCE,
    },
  )
  await page.reload()
  await expect(page.locator('input[data-path="pins.feedback.R1"]')).toHaveValue(/^4\.801\skΩ$/u, { timeout: PATIENCE })
  await feedback(page).getByRole('button', { name: 'Remove this pin' }).click()
  await expect(row(page, 'R1').locator('.main')).toHaveText(upper, { timeout: PATIENCE })
  await page.keyboard.press('ControlOrMeta+z')
  await expect(row(page, 'R1').locator('.main')).toHaveText('4k801', { timeout: PATIENCE })
})

test('an alternative can be pinned, and the comparison marks it', async ({ page }) => {
  await openParts(page)
  await row(page, 'Q1')
    .getByRole('button', { name: /others? for Q1/u })
    .click()
  const offer = row(page, 'Q1').locator('.others li').first()
  const number = await offer.locator('b').innerText()
  await offer.getByRole('button').click()
  await expect(row(page, 'Q1').locator('.main')).toHaveText(number, { timeout: PATIENCE })
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Compare' }).click()
  await expect(page.locator('.list .pinned')).toHaveCount(1, { timeout: PATIENCE })
  await expect(page.locator('.list li').filter({ has: page.locator('.pinned') })).toContainText(number)
})

test('a pin with which nothing can be built is named, and can be taken off', async ({ page }) => {
  await openParts(page)
  await type(page, 'pins.series-pass.HS1', 'TO-3 class')
  await expect(page.locator('.problem')).toContainText('it must be the part number of one of the heatsinks in the list')
  await page.locator('.problem').getByRole('button').click()
  // five ohms from the full input leave nothing that settles
  await type(page, 'pins.shunt.R1', '0.05')
  const shunt = page.locator('section.parts[data-topology="shunt"]')
  await expect(shunt.locator('.none')).toContainText(/^Nothing can be built with R1 to 50\smΩ pinned: /u, {
    timeout: PATIENCE,
  })
  await shunt.getByRole('button', { name: 'Remove this pin' }).click()
  await expect(shunt.locator('tfoot')).toHaveCount(1, { timeout: PATIENCE })
})

test('the parts of a design are saved as a table for a spreadsheet', async ({ page }) => {
  await openParts(page)
  const waiting = page.waitForEvent('download')
  await feedback(page).getByRole('button', { name: 'Save as CSV' }).click()
  const download = await waiting
  expect(download.suggestedFilename()).toMatch(/^[a-z0-9-]+-feedback-parts\.csv$/u)
  const text = await readFile(await download.path(), 'utf8')
  const lines = text.split('\r\n')
  expect(lines[0]).toMatch(/^\uFEFFId,Role,Value,Unit,Part number,/u)
  expect(lines.pop()).toBe('')
  expect(lines).toHaveLength(1 + (await feedback(page).locator('tbody').count()))
})

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme, reducedMotion: 'reduce' })

    test('the checker finds nothing serious, with a pin, a refused entry and alternatives in view', async ({
      page,
    }) => {
      await openParts(page)
      await type(page, 'pins.feedback.R1', '4k801')
      await expect(feedback(page).locator('.pins li')).toContainText('without it R1', { timeout: PATIENCE })
      await type(page, 'pins.shunt.D1', 'zilch')
      await row(page, 'Q1')
        .getByRole('button', { name: /others? for Q1/u })
        .click()
      const { violations } = await new AxeBuilder({ page }).analyze()
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
      expect(serious.map(({ id, nodes }) => `${id}: ${nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([])
    })
  })
}

test.describe('390 px wide', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('nothing reaches out of the screen sideways', async ({ page }) => {
    await openParts(page)
    await type(page, 'pins.feedback.C1', 'Nichicon PW 56.0 µF 50 V')
    await expect(feedback(page).locator('.pins li')).toContainText('without it C1', { timeout: PATIENCE })
    await row(page, 'HS1')
      .getByRole('button', { name: /others? for HS1/u })
      .click()
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390)
  })
})
