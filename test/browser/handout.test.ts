/** What leaves the page: every plot and table of every screen, opened and compared with what the page shows. */
import { execFile } from 'node:child_process'
import { mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { type Locator, type Page, expect } from '@playwright/test'
import { SCREENS } from '../../web/screens/names.ts'
import { PATIENCE, openPage, test } from './openPage.ts'

async function copyOut(page: Page): Promise<Locator> {
  await page.getByRole('button', { name: 'Copy out plots and tables' }).click()
  return page.locator('.copy-out .sheet')
}

async function saved(page: Page, button: Locator): Promise<{ name: string; bytes: Buffer }> {
  const [download] = await Promise.all([page.waitForEvent('download', { timeout: PATIENCE }), button.click()])
  return { name: download.suggestedFilename(), bytes: await readFile(await download.path()) }
}

async function goTo(page: Page, name: string): Promise<void> {
  await page.evaluate((to) => {
    location.hash = to
  }, name)
  if (name !== 'compare') await expect(page.locator('main .body > *').first()).toBeVisible({ timeout: PATIENCE })
  if (name === 'spread') await expect(page.locator('.spread .yield').first()).toBeVisible({ timeout: PATIENCE })
}

test('every plot and every table of every screen can be copied out', async ({ page }) => {
  test.setTimeout(6 * PATIENCE)
  await openPage(page)
  for (const { name } of SCREENS) {
    await goTo(page, name)
    const sheet = await copyOut(page)
    const tables = await page.locator('main table').count()
    await expect(sheet.getByRole('list').nth((await sheet.getByRole('list').count()) - 2)).toBeVisible()
    const offered = await sheet.getByRole('button', { name: / as CSV$/u }).count()
    const pictures = await sheet.getByRole('button', { name: / as SVG$/u }).count()
    // a canvas, or a figure drawn in HTML or SVG
    const drawn = await page.locator('main .canvas, main figure, main section.spread').count()
    expect(offered, `${name}: CSV`).toBeGreaterThanOrEqual(tables + drawn)
    expect(pictures, `${name}: plots`).toBe(drawn)
    expect(tables + drawn, `${name} shows something`).toBeGreaterThan(0)
    await page.keyboard.press('Escape')
    await expect(sheet).toHaveCount(0)
    await expect(page.getByRole('button', { name: 'Copy out plots and tables' })).toBeFocused()
  }
})

test('the table of figures as CSV has a row for each row of the page, and the values of the page', async ({ page }) => {
  await openPage(page)
  const shown = await page.locator('table.figures tbody tr').count()
  const efficiency = await page.locator('table.figures tbody td .value').first().innerText()
  const sheet = await copyOut(page)
  const { name, bytes } = await saved(page, sheet.getByRole('button', { name: 'Figures of the three designs as CSV' }))
  expect(name).toMatch(/^[a-z0-9-]+-figures-of-the-three-designs\.csv$/u)
  expect([...bytes.subarray(0, 3)]).toEqual([0xef, 0xbb, 0xbf])
  const lines = bytes.toString('utf8').trimEnd().split('\r\n')
  expect(lines).toHaveLength(shown + 1)
  expect(lines[0]).toContain('Shunt')
  const [, value, unit] = /^"Efficiency, full load",([^,]*),([^,]*),/u.exec(lines[1]!) ?? []
  const [, digits, sign] = /^([\d.]+)\s*(%)/u.exec(efficiency) ?? []
  expect([Number(value), unit]).toEqual([Number(digits), sign])
})

test('a plot as SVG needs nothing else, and as PNG has twice its pixels', async ({ page }) => {
  await openPage(page)
  const sheet = await copyOut(page)
  const { bytes } = await saved(page, sheet.getByRole('button', { name: 'Plots against input and load as SVG' }))
  const svg = bytes.toString('utf8')
  const read = await page.evaluate((text) => {
    const root = new DOMParser().parseFromString(text, 'image/svg+xml')
    return {
      errors: root.querySelectorAll('parsererror').length,
      paths: root.querySelectorAll('svg svg path').length,
      words: [...root.querySelectorAll('text')].map((e) => e.textContent),
      width: Number(root.documentElement.getAttribute('width')),
    }
  }, svg)
  expect(read.errors).toBe(0)
  expect(read.paths).toBeGreaterThanOrEqual(3)
  for (const word of await page.locator('.frame .title b').allInnerTexts()) expect(read.words).toContain(word)
  expect(svg).not.toMatch(/(?:href|src)="(?!#)|url\((?!['"]?#)|var\(/u)
  const png = await saved(page, sheet.getByRole('button', { name: 'Plots against input and load as PNG' }))
  expect(png.bytes.subarray(1, 4).toString('latin1')).toBe('PNG')
  expect(png.bytes.readUInt32BE(16)).toBe(Math.round(read.width) * 2)
})

/**
 * Node and the browser need not round `Math.exp` and `Math.pow` alike in the last bit (ECMAScript leaves that open), and solves
 * carry it on: so far may two numbers differ, as a share.
 */
const LAST_BITS = 1e-6

/** Everything that is neither an object nor a list, by its path. */
function leaves(value: unknown, path = '', into = new Map<string, unknown>()): Map<string, unknown> {
  if (typeof value !== 'object' || value === null) return into.set(path, value)
  for (const [key, inner] of Object.entries(value)) leaves(inner, `${path}/${key}`, into)
  return into
}

test('the comparison as JSON is what the headless run prints', async ({ page }) => {
  test.setTimeout(4 * PATIENCE)
  await openPage(page)
  const sheet = await copyOut(page)
  const { bytes } = await saved(page, sheet.getByRole('button', { name: 'JSON' }))
  await page.keyboard.press('Escape')
  await page.getByRole('button', { name: 'Studies' }).click()
  const study = await saved(page, page.getByRole('button', { name: 'Save as a study file' }))
  const path = join(await mkdtemp(join(tmpdir(), 'wattfork-')), 'own.study.json')
  await writeFile(path, study.bytes)
  const { stdout } = await promisify(execFile)(process.execPath, ['engine/hosts/launch.js', path], {
    maxBuffer: 1 << 28,
  })
  const [ours, theirs] = [bytes.toString('utf8'), stdout].map((text) => leaves(JSON.parse(text)))
  expect([...ours!.keys()]).toEqual([...theirs!.keys()])
  const apart = [...theirs!].filter(([path, value]) => {
    const own = ours!.get(path)
    return typeof value === 'number' && typeof own === 'number'
      ? Math.abs(own - value) > LAST_BITS * Math.max(Math.abs(value), 1e-9)
      : own !== value
  })
  expect(apart.map(([path, value]) => `${path}: ${String(ours!.get(path))}, headless ${String(value)}`)).toEqual([])
})
