/** What leaves the page: every plot and table of every screen, opened and compared with what the page shows. */
import { execFile } from 'node:child_process'
import { mkdtemp, readFile, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { type Locator, type Page, expect } from '@playwright/test'
import { answer, createSizer } from '../../engine/index.ts'
import type { Study } from '../../engine/requirements/study.ts'
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
  if (name === 'range') await expect(page.locator('main .canvas')).toHaveCount(3, { timeout: PATIENCE })
  if (name === 'map') await expect(page.locator('main .frame > canvas')).toBeVisible({ timeout: PATIENCE })
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
    // a canvas, a figure drawn in HTML or SVG that holds none, a row of pictures
    const drawn = await page
      .locator(
        'main .canvas, main .frame > canvas, main figure:not(:has(.canvas)):has(*), main section.spread, main .lanes:has(.field > svg)',
      )
      .count()
    expect(offered, `${name}: CSV`).toBeGreaterThanOrEqual(tables + drawn)
    expect(pictures, `${name}: plots`).toBe(drawn)
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
  expect(svg).not.toMatch(/(?:href|src)="(?!#)|url\((?!['"]?(?:#|data:))|var\(/u)
  const png = await saved(page, sheet.getByRole('button', { name: 'Plots against input and load as PNG' }))
  expect(png.bytes.subarray(1, 4).toString('latin1')).toBe('PNG')
  expect(png.bytes.readUInt32BE(16)).toBe(Math.round(read.width) * 2)
})

/** Every colour token in the theme on screen, as `rgb(…)`. */
function shownColours(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const names =
      'page sheet sunk ink ink-2 line line-2 load heat-1 heat-2 heat-3 heat-soft heat-text shunt series feedback band'
    const probe = document.body.appendChild(document.createElement('i'))
    const colours = names.split(' ').map((name) => {
      probe.style.color = `var(--${name})`
      return getComputedStyle(probe).color
    })
    probe.remove()
    return colours
  })
}

const inDocument = (page: Page, svg: string, selector: string): Promise<number> =>
  page.evaluate(
    ([text, wanted]) => new DOMParser().parseFromString(text!, 'image/svg+xml').querySelectorAll(wanted!).length,
    [svg, selector],
  )

async function pictures(page: Page, titles: readonly string[]): Promise<string[]> {
  const sheet = await copyOut(page)
  const texts: string[] = []
  for (const title of titles) {
    const { bytes } = await saved(page, sheet.getByRole('button', { name: `${title} as SVG` }))
    texts.push(bytes.toString('utf8'))
  }
  await page.keyboard.press('Escape')
  return texts
}

/** The study on the page, as its file holds it. */
async function studyOf(page: Page): Promise<Study> {
  await page.getByRole('button', { name: 'Studies' }).click()
  const { bytes } = await saved(page, page.getByRole('button', { name: 'Save as a study file' }))
  return JSON.parse(bytes.toString('utf8')) as Study
}

const COMPARED = ['Plots against input and load', 'Part count', 'Feedback: where the watts go']

test('a picture copied from the dark page is that of the light page, letter for letter', async ({ page }) => {
  test.setTimeout(4 * PATIENCE)
  await page.emulateMedia({ colorScheme: 'light' })
  await openPage(page)
  const light = await shownColours(page)
  const fromLight = await pictures(page, COMPARED)
  await page.emulateMedia({ colorScheme: 'dark' })
  const dark = await shownColours(page)
  expect(dark.filter((colour) => light.includes(colour))).toEqual([])
  const fromDark = await pictures(page, COMPARED)
  // names within a curve's drawing count the drawings made before it
  const uncounted = (svgs: readonly string[]) => svgs.map((svg) => svg.replaceAll(/zr\d+-(?:cls-\d+)?/gu, 'zr-'))
  expect(uncounted(fromDark)).toEqual(uncounted(fromLight))
  for (const svg of fromDark) {
    for (const colour of dark) expect(svg).not.toContain(colour)
    expect(svg).toContain('fill="#fff"')
    expect(svg).toContain(light[3])
    expect(svg).toContain('src:url("data:font/woff2;base64,')
  }
  // and the page is dark as before
  expect(await shownColours(page)).toEqual(dark)
})

test('a picture has the marks in their shapes, the bars, and the spaces between its words', async ({ page }) => {
  test.setTimeout(4 * PATIENCE)
  await page.emulateMedia({ colorScheme: 'dark' })
  await openPage(page)
  const [plots, count] = await pictures(page, COMPARED)
  // shunt, series-pass and feedback in the light theme
  const [square, triangle, circle] = [
    'rect[fill="rgb(168, 50, 143)"][width="8"]',
    'polygon[fill="rgb(42, 99, 234)"]',
    'circle[fill="rgb(6, 74, 56)"]',
  ] as const
  const onPage = async (shape: string) => page.locator(`.field .mark.${shape}`).count()
  expect(await inDocument(page, plots!, square)).toBe(await onPage('square'))
  // one more in the key
  expect(await inDocument(page, plots!, triangle)).toBe((await onPage('triangle')) + 1)
  expect(await inDocument(page, plots!, circle)).toBe((await onPage('circle')) + 1)
  expect(await onPage('circle')).toBeGreaterThan(5)

  const parts = (await page.locator('.count .value').allInnerTexts()).map(Number)
  const bar = (fill: string) => inDocument(page, count!, `rect[fill="${fill}"][height="10"]`)
  expect([await bar('rgb(168, 50, 143)'), await bar('rgb(42, 99, 234)'), await bar('rgb(6, 74, 56)')]).toEqual(parts)

  const words = await page.evaluate(
    (text) =>
      [...new DOMParser().parseFromString(text, 'image/svg+xml').querySelectorAll('text')]
        .map((each) => each.textContent)
        .join(''),
    count!,
  )
  expect(words).toContain('Parts, everything bought and placed')
})

test('the curves as CSV are those that the engine computed', async ({ page }) => {
  test.setTimeout(4 * PATIENCE)
  await openPage(page)
  const sheet = await copyOut(page)
  const { bytes } = await saved(
    page,
    sheet.getByRole('button', { name: 'Plots against input and load, against input as CSV' }),
  )
  await page.keyboard.press('Escape')
  const study = await studyOf(page)
  const walk = answer(study, createSizer())
  let step = walk.next()
  while (!step.done) step = walk.next()
  const { axis, columns } = step.value.curves[2]!.byInput
  const [head, ...lines] = bytes
    .toString('utf8')
    .slice(1)
    .trimEnd()
    .split('\r\n')
    .map((line) => line.split(/,(?! )/u))
  const rows = new Map(lines.map((line) => [Number(line[0]), line]))
  for (const [name, column] of [
    ['"Feedback output, V"', 'output'],
    ['"Feedback heat, W"', 'heat'],
  ] as const) {
    const place = head!.indexOf(name)
    expect(place, name).toBeGreaterThan(0)
    let compared = 0
    axis.forEach((volts, k) => {
      const row = rows.get(Number(volts.toPrecision(4)))
      if (!row) return
      compared++
      // the table has four figures: half a unit of the last
      const value = columns[column]![k]!
      expect(Math.abs(Number(row[place]) - value)).toBeLessThanOrEqual(
        0.5001 * 10 ** (Math.floor(Math.log10(value)) - 3),
      )
    })
    expect(compared).toBe(axis.length)
  }
})

/**
 * Node and the browser need not round `Math.pow` and `Math.exp` alike in the last bit (ECMAScript leaves that open): so far may
 * two numbers differ, as a share. The furthest apart that were measured, in safe areas drawn with powers, are 5.3e-16 apart, 2.4
 * of this unit; every solve comes out the same.
 */
const LAST_BITS = 4 * Number.EPSILON

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
  const path = join(await mkdtemp(join(tmpdir(), 'wattfork-')), 'own.study.json')
  await writeFile(path, JSON.stringify(await studyOf(page)))
  const { stdout } = await promisify(execFile)(process.execPath, ['engine/hosts/launch.js', path], {
    maxBuffer: 1 << 28,
  })
  const [ours, theirs] = [bytes.toString('utf8'), stdout].map((text) => leaves(JSON.parse(text)))
  expect([...ours!.keys()]).toEqual([...theirs!.keys()])
  const apart = [...theirs!].filter(([path, value]) => {
    const own = ours!.get(path)
    return typeof value === 'number' && typeof own === 'number'
      ? Math.abs(own - value) > LAST_BITS * Math.abs(value)
      : own !== value
  })
  expect(apart.map(([path, value]) => `${path}: ${String(ours!.get(path))}, headless ${String(value)}`)).toEqual([])
})
