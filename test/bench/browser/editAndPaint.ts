/** One edit, made and timed inside the page. */
/* oxlint-disable unicorn/consistent-function-scoping -- the function is sent to the page by itself */
export interface Painted {
  /** Until the first answer, of nominal parts, is painted. */
  milliseconds: number
  /** Until the proven answer is. */
  proven: number
  /** The page's words about the designs are not what they were. */
  isChanged: boolean
  refused: boolean
}

/** Runs in the page, so it may use nothing from outside of itself. Rejects where no answer comes. */
export async function editAndPaint({ path, text }: { path: string; text: string }): Promise<Painted> {
  const frame = () => new Promise((next) => requestAnimationFrame(next))
  const words = () => document.querySelector('.bench')!.textContent
  const shown = () =>
    [...document.querySelectorAll('[data-revision]')].map((e) => Number(e.getAttribute('data-revision')))
  const entry = document.querySelector<HTMLInputElement>(`input[data-path="${path}"]`)!
  entry.focus()
  entry.value = text
  entry.dispatchEvent(new Event('input', { bubbles: true }))
  await frame()
  const old = words()
  const wanted = Math.max(...shown()) + 1
  const isRefused = () => entry.getAttribute('aria-invalid') === 'true'
  const answered = new Promise<void>((resolve, reject) => {
    const late = setTimeout(() => reject(new Error(`${path}: ${text} was not answered`)), 20_000)
    const observer = new MutationObserver(() => {
      if (!isRefused() && !shown().every((revision) => revision === wanted)) return
      clearTimeout(late)
      observer.disconnect()
      resolve()
    })
    const attributeFilter = ['data-revision', 'aria-invalid']
    observer.observe(document.body, { subtree: true, childList: true, attributes: true, attributeFilter })
  })
  const start = performance.now()
  entry.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }))
  await answered
  await frame()
  await frame()
  const milliseconds = performance.now() - start
  const isProven = () => document.querySelector('[data-stage]')?.getAttribute('data-stage') === 'proven'
  while (!isRefused() && !isProven()) await frame()
  await frame()
  return { milliseconds, proven: performance.now() - start, isChanged: words() !== old, refused: isRefused() }
}
