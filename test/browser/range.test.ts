/** The input range in the built page: the trade with its prices, heat by part, the maps, by mouse and keyboard, and access. */
import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'
import { test } from './openPage.ts'

test.describe.configure({ timeout: 240_000 })

/** Two dozen ranges of three designs are sized, on a machine that may have other work. */
const SIZED = 150_000

const status = (page: Page) => page.locator('.bar .status')
const region = (page: Page, name: RegExp) => page.getByRole('region', { name })

async function openRange(page: Page): Promise<void> {
  await page.goto('./#range')
  await expect(status(page)).toContainText('each sized and proven anew', { timeout: SIZED })
}

/** Texts of the cells of a table's rows. */
const cells = (page: Page, name: RegExp): Promise<string[][]> =>
  region(page, name)
    .locator('tbody tr')
    .evaluateAll((rows) =>
      rows.map((row) => [...row.querySelectorAll('th, td')].map((cell) => cell.textContent.trim())),
    )

/** The number behind `costs`, in watts. */
function watts(sentence: string): number {
  const [, number, unit] = /(?:costs|saves) ([\d.]+)\s(µW|mW|W) of/u.exec(sentence)!
  return Number(number) * { µW: 1e-6, mW: 1e-3, W: 1 }[unit as 'W']
}

test('what a volt costs is the difference of two rows of the table, at either end', async ({ page }) => {
  await openRange(page)
  await expect(page.getByRole('heading', { level: 1 })).toContainText(/^Each volt above [\d.]+\sV costs .+ of heat\.$/u)
  await page.getByText('The trade as a table').click()
  for (const [label, name, step] of [
    ['highest input', /Each highest input/u, 1],
    ['lowest input', /Each lowest input/u, -1],
  ] as const) {
    // by keyboard
    await page.getByRole('button', { name: label }).focus()
    await page.keyboard.press('Enter')
    const rows = await cells(page, name)
    expect(rows.length).toBeGreaterThan(6)
    const now = rows.findIndex(([input]) => input!.includes('now'))
    const volts = (row: string[]) => Number.parseFloat(row[0]!)
    const wider = Math.abs(volts(rows[now + step]!) - volts(rows[now]!))
    // columns 2, 7 and 12 hold the heat of the three
    for (const [k, column] of [2, 7, 12].entries()) {
      const sentence = await page.locator('.costs article').nth(k).locator('p').first().innerText()
      const heats = [rows[now]!, rows[now + step]!].map((row) => Number(row[column]))
      const slope = Math.abs(heats[1]! - heats[0]!) / wider
      // both are printed with three figures
      expect(Math.abs(watts(sentence) - slope)).toBeLessThan((0.0051 * (heats[0]! + heats[1]!)) / wider + 0.005 * slope)
    }
  }
})

test('the sweep can be stopped and run again', async ({ page }) => {
  await page.goto('./#range')
  await expect(status(page)).toContainText(/of \d+ designs sized/u, { timeout: SIZED })
  await status(page).getByRole('button', { name: 'Stop' }).click()
  await expect(status(page)).toContainText('Stopped; what was sized is shown.')
  await status(page).getByRole('button', { name: 'Run again' }).click()
  await expect(status(page)).toContainText('each sized and proven anew', { timeout: SIZED })
})

test('the cross of the maps moves by keys and by the mouse, and heat by part goes along', async ({ page }) => {
  await page.goto('./#range')
  const maps = page.locator('section', { has: page.getByRole('heading', { name: 'Heat over input voltage' }) })
  const volts = maps.getByRole('slider', { name: 'Input voltage' })
  await expect(volts).toBeVisible({ timeout: SIZED })
  const seen = () => maps.locator('.seen').allInnerTexts()
  const before = await seen()
  expect(before).toHaveLength(3)
  await volts.focus()
  await page.keyboard.press('ArrowRight')
  await expect.poll(seen).not.toEqual(before)
  const text = await volts.getAttribute('aria-valuetext')
  const stacked = page.locator('section', { has: page.getByRole('heading', { name: 'Heat by part' }) })
  await expect(stacked.locator('.aside').first()).toContainText(`at ${text}`)
  // no load at all: the heat of the follower is next to nothing there
  await maps.getByRole('slider', { name: 'Load current' }).focus()
  await page.keyboard.press('Home')
  await expect(maps.locator('.seen').nth(1)).toContainText('and 0 A')
  // by the mouse: the upper right of the middle map is hotter than its lower left
  const map = maps.locator('svg[role="img"]').nth(1)
  await map.scrollIntoViewIfNeeded()
  const box = (await map.boundingBox())!
  const at = async (across: number, down: number) => {
    await page.mouse.click(box.x + across * box.width, box.y + down * box.height)
    const [, number, unit] = /: ([\d.]+)\s(µW|mW|W) of heat/u.exec(await maps.locator('.seen').nth(1).innerText())!
    return Number(number) * { µW: 1e-6, mW: 1e-3, W: 1 }[unit as 'W']
  }
  const cool = await at(0.4, 0.8)
  expect(await at(0.9, 0.1)).toBeGreaterThan(2 * cool)
})

test('every picture has its table', async ({ page }) => {
  await openRange(page)
  await page.getByText('The trade as a table').click()
  await page.getByText('Heat by part as tables').click()
  await page.getByText('The maps as tables').click()
  expect((await cells(page, /Each highest input/u)).length).toBeGreaterThan(6)
  for (const name of [
    /^shunt: heat by part/u,
    /^feedback: heat by part/u,
    /^Shunt: heat over/u,
    /^Feedback: heat over/u,
  ]) {
    const rows = await cells(page, name)
    expect(rows.length).toBeGreaterThan(15)
    expect(rows.flat().some((text) => /\d/u.test(text))).toBe(true)
  }
})

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme, reducedMotion: 'reduce' })

    test('the checker finds nothing serious, tables open', async ({ page }) => {
      await openRange(page)
      await page.getByText('The trade as a table').click()
      await page.getByText('Heat by part as tables').click()
      await page.getByText('The maps as tables').click()
      const { violations } = await new AxeBuilder({ page }).analyze()
      const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
      expect(serious.map(({ id, nodes }) => `${id} at ${nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([])
    })
  })
}

test.describe('390 px wide', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('nothing reaches out of the page sideways', async ({ page }) => {
    await openRange(page)
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
  })
})
