/** Studies that stay: the browser's own database, two tabs, storage that is full or denied, links, files, and hostile ones. */
import { readFile } from 'node:fs/promises'
import { expect, type BrowserContext, type Page } from '@playwright/test'
import { answered, openPage, test, type } from './openPage.ts'

test.describe.configure({ timeout: 120_000 })

const menu = (page: Page) => page.getByRole('button', { name: 'Studies', exact: true })
const rows = (page: Page) => page.locator('[data-study]')
const highest = (page: Page) => page.locator('input[data-path="input.max"]')
const title = (page: Page) => page.locator('.answer .name b')
/** What is said over the page; the entries have alerts of their own. */
const notice = (page: Page) => page.locator('.notices').getByRole('alert')

async function rename(page: Page, text: string): Promise<void> {
  await page.getByRole('button', { name: 'Rename the study' }).click()
  await page.getByLabel('Title of the study').fill(text)
  await page.keyboard.press('Enter')
  await expect(title(page)).toHaveText(text)
}

/** Titles and highest inputs as they lie in the browser's database. */
const stored = (page: Page): Promise<string[]> =>
  page.evaluate(async () => {
    const done = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.addEventListener('success', () => resolve(request.result))
        request.addEventListener('error', () => reject(request.error!))
      })
    const db = await done(indexedDB.open('wattfork'))
    const records = (await done(db.transaction('studies').objectStore('studies').getAll())) as {
      file: { title: string; requirements: { input: { max: number } } }
    }[]
    db.close()
    return records.map(({ file }) => `${file.title} ${file.requirements.input.max}`).toSorted()
  })

const expectStored = (page: Page, studies: readonly string[]) => expect.poll(() => stored(page)).toEqual(studies)

async function secondTab(context: BrowserContext): Promise<Page> {
  const page = await context.newPage()
  await openPage(page)
  return page
}

test('studies are kept, copied, renamed, deleted and brought back, over a reload and by keyboard', async ({ page }) => {
  await openPage(page)
  await rename(page, 'Barn rail')
  await type(page, 'input.max', '16 V')
  await menu(page).click()
  await page.getByRole('button', { name: 'Duplicate', exact: true }).click()
  await expect(rows(page)).toHaveCount(2)
  await page.getByLabel('Notes').fill('Fed from the barn.')
  await page.keyboard.press('Escape')
  await type(page, 'input.max', '17 V')
  await expectStored(page, ['Barn rail 16', 'Barn rail, copy 17'])

  await page.reload()
  await answered(page)
  await menu(page).click()
  await expect(page.getByLabel('Notes')).toHaveValue('Fed from the barn.')
  await page.getByRole('button', { name: 'Rename: Barn rail', exact: true }).focus()
  await page.keyboard.press('Enter')
  await page.keyboard.type('Shed rail')
  await page.keyboard.press('Enter')
  await page.getByRole('button', { name: 'Delete: Shed rail', exact: true }).focus()
  await page.keyboard.press('Enter')
  await expect(rows(page)).toHaveCount(1)
  await expectStored(page, ['Barn rail, copy 17'])
  await page.keyboard.press('Escape')
  await page.getByRole('button', { name: 'Undo: “Shed rail” deleted' }).click()
  await expectStored(page, ['Barn rail, copy 17', 'Shed rail 16'])
  await menu(page).click()
  await page.getByRole('button', { name: /^Shed rail/u }).click()
  await expect(highest(page)).toHaveValue(/^16\.0/u)
})

test('a tab that closes in the middle of typing has lost nothing at the next visit', async ({ page, context }) => {
  await openPage(page)
  await rename(page, 'Barn rail')
  await highest(page).focus()
  await page.keyboard.press('ControlOrMeta+a')
  await page.keyboard.type('16.25 V')
  await page.close({ runBeforeUnload: true })
  const next = await secondTab(context)
  await expect(highest(next)).toHaveValue(/^16\.25/u)
  await expectStored(next, ['Barn rail 16.25'])
})

test('two tabs at one study: the second is told, and nothing is overwritten', async ({ page, context }) => {
  const revision = await openPage(page)
  await rename(page, 'Barn rail')
  await expectStored(page, ['Barn rail 14.4'])
  const other = await secondTab(context)
  await expect(title(other)).toHaveText('Barn rail')

  await type(page, 'input.max', '16 V')
  await answered(page, revision + 1)
  await expect(notice(other)).toContainText('“Barn rail” was changed in another tab.')
  await expect(highest(other)).toHaveValue(/^14\.4/u)
  await other.getByRole('button', { name: 'Show the change' }).click()
  await expect(highest(other)).toHaveValue(/^16\.0/u)
  await expect(other.getByText('was changed in another tab')).toHaveCount(0)

  await type(page, 'input.max', '17 V')
  await expect(notice(other)).toContainText('was changed in another tab')
  await type(other, 'input.max', '18 V')
  await expect(notice(other)).toContainText('yours goes on here as “Barn rail, copy”')
  await expect(title(page)).toHaveText('Barn rail')
  await expectStored(page, ['Barn rail 17', 'Barn rail, copy 18'])
})

test('a study that another tab changed unheard stays when it is deleted, and says so', async ({ page, context }) => {
  // this tab never hears of the other one
  await page.addInitScript(() => {
    BroadcastChannel.prototype.addEventListener = () => {}
  })
  await openPage(page)
  await rename(page, 'Barn rail')
  await expectStored(page, ['Barn rail 14.4'])
  const other = await secondTab(context)
  await type(other, 'input.max', '16 V')
  await expectStored(other, ['Barn rail 16'])
  await menu(page).click()
  await page.getByRole('button', { name: 'Delete: Barn rail', exact: true }).click()
  await expect(notice(page)).toContainText('“Barn rail” stays in the list.')
  await expect.poll(() => stored(page)).toContain('Barn rail 16')
  await page.getByRole('button', { name: 'Open it', exact: true }).click()
  await expect(highest(page)).toHaveValue(/^16\.0/u)
})

test('a long title is cut and leaves the signs of its row in view', async ({ page }) => {
  await openPage(page)
  await rename(page, 'x'.repeat(200))
  await menu(page).click()
  for (const width of [1440, 390]) {
    // oxlint-disable-next-line no-await-in-loop -- one width after the other
    await page.setViewportSize({ width, height: 900 })
    // oxlint-disable-next-line no-await-in-loop -- as above
    await expect(rows(page).getByRole('button', { name: /^Delete:/u })).toBeInViewport({ ratio: 1 })
  }
})

test.describe('a browser that does not store', () => {
  test('for want of room says so, and work goes on until there is room again', async ({ page }) => {
    await page.addInitScript(() => {
      // oxlint-disable-next-line typescript/unbound-method -- called below on the object it is called on there
      const own = { put: IDBObjectStore.prototype.put, setItem: Storage.prototype.setItem }
      let isFull = true
      let refused = 0
      const guard = <A extends unknown[], R>(call: (...args: A) => R) =>
        function guarded(this: unknown, ...args: A): R {
          if (isFull) {
            if (this instanceof IDBObjectStore) refused++
            throw new DOMException('no room', 'QuotaExceededError')
          }
          return call.apply(this, args)
        }
      IDBObjectStore.prototype.put = guard(own.put)
      Storage.prototype.setItem = guard(own.setItem)
      const makeRoom = () => {
        isFull = false
      }
      Object.assign(globalThis, {
        refusals: () => refused,
        // room comes with the click itself: a write that the page makes unasked would succeed before it
        makeRoomAtClick: () => document.addEventListener('click', makeRoom, { capture: true, once: true }),
      })
    })
    const refusals = () => page.evaluate(() => (globalThis as unknown as { refusals: () => number }).refusals())
    await openPage(page)
    const said = notice(page).filter({ hasText: 'no room left' })
    await expect(said).toBeVisible()
    await type(page, 'input.max', '16 V')
    await expect(highest(page)).toHaveValue(/^16\.0/u)
    await menu(page).click()
    const before = await refusals()
    await page.getByRole('button', { name: 'Duplicate', exact: true }).click()
    await expect(rows(page)).toHaveCount(2)
    // the page tries by itself first
    await expect.poll(refusals).toBeGreaterThan(before)
    await page.evaluate(() => (globalThis as unknown as { makeRoomAtClick: () => void }).makeRoomAtClick())
    await said.getByRole('button', { name: 'Try again' }).click()
    await expect(said).toHaveCount(0)
    expect((await stored(page)).length).toBe(2)
  })

  test('because it denies it says so, and all works in memory', async ({ page }) => {
    await page.addInitScript(() => {
      const refuse = () => {
        throw new DOMException('denied', 'SecurityError')
      }
      for (const name of ['indexedDB', 'localStorage', 'sessionStorage'])
        Object.defineProperty(globalThis, name, { get: refuse })
    })
    await openPage(page)
    await expect(notice(page).filter({ hasText: 'store anything' })).toBeVisible()
    await rename(page, 'In memory')
    await menu(page).click()
    await page.getByRole('button', { name: 'Duplicate', exact: true }).click()
    await expect(rows(page)).toHaveCount(2)
    await page.getByRole('button', { name: 'Delete: In memory', exact: true }).click()
    await expect(rows(page)).toHaveCount(1)
    await page.keyboard.press('ControlOrMeta+z')
    await expect(rows(page)).toHaveCount(2)
  })
})

test('a link opens the whole study as a new one, and an undo brings back what was there', async ({ page, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write'])
  await openPage(page)
  await rename(page, 'Barn rail')
  await type(page, 'input.max', '16 V')
  await menu(page).click()
  await page.getByLabel('Notes').fill('Ask about the cable.')
  await page.getByLabel('Notes').blur()
  await page.getByRole('button', { name: 'Copy a link' }).click()
  await expect(page.getByText(/^Copied: \d+ characters/u)).toBeVisible()
  const link = await page.evaluate(() => navigator.clipboard.readText())
  expect(link).toMatch(/#study=z[\w-]+$/u)
  await page.keyboard.press('Escape')
  await rename(page, 'Another')
  await expectStored(page, ['Another 16'])

  // an address typed into the open tab changes its fragment alone
  await page.goto(link)
  await expect(title(page)).toHaveText('Barn rail')
  await expect(page).toHaveURL(/#compare$/u)
  await menu(page).click()
  await expect(page.getByLabel('Notes')).toHaveValue('Ask about the cable.')
  await expectStored(page, ['Another 16', 'Barn rail 16'])
  await page.keyboard.press('Escape')
  await page.getByRole('button', { name: /^Undo: Study/u }).click()
  await expect(title(page)).toHaveText('Another')

  const other = await context.newPage()
  await other.goto(link)
  await answered(other)
  await expect(title(other)).toHaveText('Barn rail')
  await other.reload()
  await answered(other)
  await expect(title(other)).toHaveText('Barn rail')
})

test('a damaged link is explained and changes nothing', async ({ page }) => {
  await openPage(page)
  const before = await title(page).innerText()
  await page.goto('./#study=zAAAA')
  await expect(notice(page)).toContainText('The link was not opened. The link is damaged.')
  await expect(title(page)).toHaveText(before)
})

const file = async (page: Page): Promise<Record<string, unknown>> => {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as a study file', exact: true }).click(),
  ])
  return JSON.parse(await readFile(await download.path(), 'utf8')) as Record<string, unknown>
}

async function drop(page: Page, name: string, text: string): Promise<void> {
  await page.evaluate(
    ([fileName, content]) => {
      const dataTransfer = new DataTransfer()
      dataTransfer.items.add(new File([content!], fileName!))
      window.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }))
    },
    [name, text],
  )
}

async function paste(page: Page, text: string): Promise<void> {
  await page.evaluate((content) => {
    const clipboardData = new DataTransfer()
    clipboardData.setData('text/plain', content)
    document.body.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }))
  }, text)
}

test('a study file is saved, chosen, dropped and pasted', async ({ page }) => {
  await openPage(page)
  await menu(page).click()
  const saved = await file(page)
  const named = (name: string) => JSON.stringify({ ...saved, title: name })
  await page
    .locator('input[type="file"]')
    .setInputFiles({ name: 'a.study.json', mimeType: 'application/json', buffer: Buffer.from(named('Chosen')) })
  await expect(title(page)).toHaveText('Chosen')
  await drop(page, 'b.study.json', named('Dropped'))
  await expect(title(page)).toHaveText('Dropped')
  await paste(page, `\n${named('Pasted')}`)
  await expect(title(page)).toHaveText('Pasted')
  await expect.poll(async () => (await stored(page)).length).toBe(4)
})

test('a hostile file does nothing but show its message', async ({ page }) => {
  const revision = await openPage(page)
  const before = await title(page).innerText()
  await menu(page).click()
  const saved = await file(page)
  await page.keyboard.press('Escape')
  const script = '<img src=x onerror="window.hurt=1"><script>window.hurt=1</script>'
  const poisoned = (value: unknown): unknown =>
    typeof value === 'object' && value !== null
      ? Object.fromEntries([...Object.entries(value).map(([key, inner]) => [key, poisoned(inner)]), [script, script]])
      : script
  const prototypes = JSON.stringify(saved).replace(
    '"requirements":{',
    '"__proto__":{"hurt":1},"constructor":{"prototype":{"hurt":1}},"requirements":{"__proto__":{"hurt":1},',
  )
  const deep = JSON.stringify(saved).replace(
    '"title":',
    `"notes":${'['.repeat(100_000)}${']'.repeat(100_000)},"title":`,
  )
  const hostile: [name: string, text: string, said: RegExp][] = [
    [`${script}.json`, JSON.stringify(poisoned(saved)), /was not opened/u],
    ['prototypes.json', prototypes, /__proto__/u],
    ['deep.json', deep, /notes is a list/u],
    ['long.json', `{"format":"${'x'.repeat(50e6)}"}`, /50\.0\sMB long; at most 1\.00\sMB is read/u],
    ['profile.csv', '5 mA, 90 %', /A load profile is read on the screen “Day”/u],
    ['not.json', '\u0000\uFFFF'.repeat(100), /is not JSON/u],
  ]
  for (const [name, text, said] of hostile) {
    // oxlint-disable-next-line no-await-in-loop -- one file after another
    await drop(page, name, text)
    // oxlint-disable-next-line no-await-in-loop -- as above
    await expect(notice(page).filter({ hasText: 'was not opened' })).toContainText(said)
    // oxlint-disable-next-line no-await-in-loop -- as above
    await notice(page).getByRole('button', { name: 'Close' }).click()
  }
  // a study may be called or noted anything: it is text
  await drop(page, 'text.json', JSON.stringify({ ...saved, title: script, notes: script }))
  await expect(title(page)).toHaveText(script)
  await answered(page, revision)
  await menu(page).click()
  await expect(page.getByLabel('Notes')).toHaveValue(script)
  expect(
    await page.evaluate(() => ({
      hurt: 'hurt' in globalThis || 'hurt' in {},
      made: document.querySelectorAll('img, #app script').length,
    })),
  ).toEqual({ hurt: false, made: 0 })
  await page.keyboard.press('Escape')
  await page.getByRole('button', { name: /^Undo: Study/u }).click()
  await expect(title(page)).toHaveText(before)
})
