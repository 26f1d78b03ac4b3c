/** The brief in the built page: on screen, on paper of two sizes, and as a file that is opened by itself. */
import { readFile } from 'node:fs/promises'
import { pathToFileURL } from 'node:url'
import { AxeBuilder } from '@axe-core/playwright'
import { type Page, expect } from '@playwright/test'
import { answered, openPage, PATIENCE, test, type } from './openPage.ts'

test.describe.configure({ timeout: 150_000 })
test.use({ reducedMotion: 'reduce' })

const PAPERS = ['A4', 'Letter'] as const

/** Goes to the brief and waits until it is of the answer in force. */
async function openBrief(page: Page): Promise<void> {
  await page.getByRole('navigation', { name: 'Screens' }).getByRole('link', { name: 'Brief' }).click()
  await expect(page.getByRole('button', { name: 'Save as one HTML file' })).toBeEnabled({ timeout: PATIENCE })
}

async function choose(page: Page, title: string): Promise<void> {
  await page.getByRole('button', { name: 'Studies' }).click()
  await page.getByRole('button', { name: title }).click()
}

/** Pages of a print, by the page objects in the file. */
async function pagesOnPaper(page: Page, format: (typeof PAPERS)[number]): Promise<number> {
  const bytes = await page.pdf({ format })
  return bytes.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/gu)?.length ?? 0
}

async function expectTwoPages(page: Page): Promise<void> {
  for (const format of PAPERS) expect([format, await pagesOnPaper(page, format)]).toEqual([format, 2])
}

for (const [title, finding] of [
  ['Peat-bog gas logger', /^Use feedback for the 5\sV rail$/u],
  ['Loom pick counter', /^Use series-pass for the 9\sV rail$/u],
  ['Mill-race level switch', /^Use shunt for the 9\.1\sV rail$/u],
] as const) {
  test(`${title}: the finding is the title, and A4 and Letter take two pages`, async ({ page }) => {
    const before = await openPage(page)
    if ((await page.locator('.answer .name b').innerText()) !== title) {
      await choose(page, title)
      await answered(page, before + 1)
    }
    await openBrief(page)
    await expect(page.getByRole('heading', { level: 1 })).toHaveText(finding)
    await expectTwoPages(page)
  })
}

test('where none meets by far, the closest and its shortfalls take two pages too', async ({ page }) => {
  const before = await openPage(page)
  await type(page, 'load.max', '5 A')
  await answered(page, before + 1)
  await openBrief(page)
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(/^None of the three /u)
  await expectTwoPages(page)
})

test('where none meets by little, the closest and its shortfalls take two pages too', async ({ page }) => {
  const before = await openPage(page)
  await type(page, 'output.tolerance', '0.5 %')
  await answered(page, before + 1)
  await openBrief(page)
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(
    /^None of the three meets the requirements; .+ comes closest$/u,
  )
  await expect(page.locator('.leaf').first()).toContainText('What would let it through')
  await expectTwoPages(page)
})

test('a study with every limit, many weights and the longest title takes two pages', async ({ page }) => {
  const before = await openPage(page)
  const study = {
    format: 'wattfork-study',
    version: 1,
    title: 'A long name for a small rail '.repeat(7).slice(0, 200),
    requirements: {
      input: { min: 16.5, nominal: 21, max: 27, ripple: 0.8, rippleFrequency: 100 },
      output: { voltage: 9, tolerance: 0.15 },
      load: { min: 0.006, nominal: 0.035, max: 0.07 },
      ambient: { min: 5, nominal: 25, max: 45 },
      limits: { loadRegulation: 0.05, lineRegulation: 0.05, outputRipple: 0.1, survivesShort: true },
    },
    weights: { efficiency: 3, heat: 3, partCount: 4, loadRegulation: 1, cost: 2, boardArea: 2, standbyPower: 1 },
  }
  await page.locator('input[type="file"]').setInputFiles({
    name: 'long.study.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(study)),
  })
  await answered(page, before + 1)
  await openBrief(page)
  await expect(page.locator('.leaf .study').first()).toHaveText(study.title.trim())
  await expectTwoPages(page)
})

test('the print holds the two pages alone', async ({ page }) => {
  await openPage(page)
  await openBrief(page)
  await page.emulateMedia({ media: 'print' })
  for (const outside of ['.brief .tools', '.sentence', '.foot']) await expect(page.locator(outside)).toBeHidden()
  await expect(page.getByRole('navigation', { name: 'Screens' })).toBeHidden()
  await expect(page.locator('.leaf')).toHaveCount(2)
  for (const leaf of await page.locator('.leaf').all()) await expect(leaf).toBeVisible()
})

for (const colorScheme of ['light', 'dark'] as const) {
  test.describe(`in the ${colorScheme} theme`, () => {
    test.use({ colorScheme })

    test('the sheet is white paper, and the checker finds nothing serious', async ({ page }) => {
      await openPage(page)
      await openBrief(page)
      const paper = await page
        .locator('.leaf')
        .first()
        .evaluate((leaf) => getComputedStyle(leaf).backgroundColor)
      expect(paper).toBe('rgb(255, 255, 255)')
      const { violations } = await new AxeBuilder({ page }).analyze()
      const grave = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical')
      expect(grave.map(({ id, nodes }) => `${id} at ${nodes.map((n) => n.target.join(' ')).join(', ')}`)).toEqual([])
    })
  })
}

test.describe('390 px wide', () => {
  test.use({ viewport: { width: 390, height: 844 } })

  test('nothing reaches out of the page sideways', async ({ page }) => {
    await openPage(page)
    await page.goto('./#brief')
    await expect(page.locator('.leaf')).toHaveCount(2, { timeout: PATIENCE })
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
  })
})

const EVIL = '</title><script>alert(1)</script><img src=https://example.org/x.png onerror=alert(2)>'

test('the file stands by itself: it asks for nothing, runs nothing, and looks as the sheet does', async ({
  page,
  browser,
}, info) => {
  await openPage(page)
  await page.getByRole('button', { name: 'Rename the study' }).click()
  await page.getByLabel('Title of the study').fill(EVIL)
  await page.keyboard.press('Enter')
  await openBrief(page)
  await expect(page.locator('.leaf .study').first()).toHaveText(EVIL)
  const finding = await page.getByRole('heading', { level: 1 }).innerText()
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as one HTML file' }).click(),
  ])
  expect(download.suggestedFilename()).toMatch(/^[a-z0-9-]+\.brief\.html$/u)
  const path = info.outputPath('brief.html')
  await download.saveAs(path)
  const size = (await readFile(path)).length
  // bytes: the faces are the most of it
  expect(size).toBeLessThan(400_000)

  const context = await browser.newContext({ viewport: { width: 1000, height: 900 } })
  const alone = await context.newPage()
  const address = pathToFileURL(path).href
  const asked: string[] = []
  const trouble: string[] = []
  alone.on('request', (request) => asked.push(request.url()))
  alone.on('dialog', (dialog) => {
    trouble.push(`dialog: ${dialog.message()}`)
    void dialog.dismiss()
  })
  alone.on('console', (message) => {
    if (message.type() === 'error') trouble.push(`console: ${message.text()}`)
  })
  alone.on('pageerror', (error) => trouble.push(`page: ${error.message}`))
  await alone.goto(address)
  await alone.evaluate(() => document.fonts.ready)
  expect(asked).toEqual([address])
  expect(trouble).toEqual([])

  expect(await alone.title()).toContain(EVIL)
  await expect(alone.locator('.study').first()).toHaveText(EVIL)
  await expect(alone.getByRole('heading', { level: 1 })).toHaveText(finding)
  expect(await alone.locator('script, img, iframe, object, embed, link, base, form').count()).toBe(0)
  const policy = await alone.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content')
  expect(policy).toMatch(/^default-src 'none';/u)
  expect(policy).not.toMatch(/https?:|script-src|\*/u)

  // the same look: a handful of what the rules give
  const look = (on: Page) =>
    on
      .locator('.leaf')
      .first()
      .evaluate((leaf) =>
        ['h1', '.lead', 'td', '.badge', 'figcaption', '.lines path', '.cautions'].map((selector) => {
          const style = getComputedStyle(leaf.querySelector(selector)!)
          return [
            style.fontFamily,
            style.fontSize,
            style.color,
            style.backgroundColor,
            style.stroke,
            style.borderTopWidth,
          ]
        }),
      )
  expect(await look(alone)).toEqual(await look(page))
  const faces = await alone.evaluate(() => [...document.fonts].filter(({ status }) => status === 'loaded').length)
  expect(faces).toBeGreaterThan(0)
  await expectTwoPages(alone)

  await alone.setViewportSize({ width: 390, height: 844 })
  expect(await alone.evaluate(() => document.documentElement.scrollWidth)).toBe(390)

  // the way back carries the whole study
  const back = await alone.locator('.back a').getAttribute('href')
  const other = await context.newPage()
  await other.goto(back!)
  await expect.poll(() => other.title()).toContain(EVIL)
  await context.close()
})

test('the policy of the file holds: what is added to it may neither run nor be fetched', async ({
  page,
  browser,
}, info) => {
  await openPage(page)
  await openBrief(page)
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as one HTML file' }).click(),
  ])
  const path = info.outputPath('brief.html')
  await download.saveAs(path)
  const context = await browser.newContext()
  const alone = await context.newPage()
  const asked: string[] = []
  await alone.route(/^https?:/u, (route) => {
    asked.push(route.request().url())
    return route.abort()
  })
  await alone.goto(pathToFileURL(path).href)
  await alone.evaluate(() => {
    const script = document.createElement('script')
    script.textContent = 'document.title = "run"'
    const picture = document.createElement('img')
    picture.src = 'https://example.org/x.png'
    document.body.append(script, picture)
  })
  await alone.waitForTimeout(300)
  expect(await alone.title()).not.toBe('run')
  expect(asked).toEqual([])
  await context.close()
})
