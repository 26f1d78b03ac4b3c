/** The built page as the browser tests open it: nothing may go to the error console, nothing may break the page's policy. */
import { expect, test as base, type Page } from '@playwright/test'

/** A comparison may take seconds where other work shares the machine. */
export const PATIENCE = 30_000

/** Playwright's test with a watch over the page's errors, which is read at the end of every test. */
export const test = base.extend<{ watched: void }>({
  watched: [
    async ({ page }, use) => {
      const complaints: string[] = []
      page.on('console', (message) => {
        if (message.type() === 'error') complaints.push(`console: ${message.text()}`)
      })
      page.on('pageerror', (error) => complaints.push(`page: ${error.message}`))
      await page.exposeFunction('reportViolation', (what: string) => complaints.push(`policy: ${what}`))
      await page.addInitScript(() => {
        const { reportViolation } = globalThis as unknown as { reportViolation: (what: string) => void }
        document.addEventListener('securitypolicyviolation', (event) =>
          reportViolation(`${event.violatedDirective} ${event.blockedURI}`),
        )
      })
      await use()
      expect(complaints).toEqual([])
    },
    { auto: true },
  ],
})

/** The revision that every lane, table and plot shows; undefined while they differ, are fewer than all, or work is going on. */
function shownRevision(): number | undefined {
  const stamped = [...document.querySelectorAll('[data-revision]')]
  const hasAll =
    stamped.filter((e) => e.matches('[data-topology]')).length === 3 && stamped.some((e) => e.matches('.canvas'))
  const numbers = new Set(stamped.map((e) => Number(e.getAttribute('data-revision'))))
  const isIdle = document.querySelector('main')?.getAttribute('aria-busy') === 'false'
  return hasAll && isIdle && numbers.size === 1 ? [...numbers][0] : undefined
}

/** Waits until lanes and plots show one and the same finished answer, no older than `atLeast`; returns its number. */
export async function answered(page: Page, atLeast = 1): Promise<number> {
  let shown = 0
  await expect(async () => {
    shown = (await page.evaluate(shownRevision)) ?? 0
    expect(shown).toBeGreaterThanOrEqual(atLeast)
  }).toPass({ timeout: PATIENCE, intervals: [50] })
  return shown
}

/** Opens the page and waits for its first answer. */
export async function openPage(page: Page): Promise<number> {
  await page.goto('./')
  return answered(page)
}

/** The page's words about the three designs. */
export const words = (page: Page): Promise<string> => page.locator('.bench').innerText()

/** Focuses the entry of a requirement as the keyboard does and types over its value. */
export async function type(page: Page, path: string, text: string): Promise<void> {
  await page.locator(`input[data-path="${path}"]`).focus()
  await page.keyboard.press('ControlOrMeta+a')
  await page.keyboard.type(text)
  await page.keyboard.press('Enter')
}
