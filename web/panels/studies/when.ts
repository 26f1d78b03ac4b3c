/** When a study was last changed, in few words. */

const MINUTE = 60_000
const HOUR = 60 * MINUTE

/** Both in milliseconds since 1970. Within the day relative, then a date; `locale` and zone are the browser's. */
export function whenText(changed: number, now: number, locale?: string): string {
  const age = now - changed
  if (age < MINUTE) return 'just now'
  if (age < HOUR) return `${Math.floor(age / MINUTE)} min ago`
  if (age < 24 * HOUR) return `${Math.floor(age / HOUR)} h ago`
  return new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'short', year: 'numeric' }).format(changed)
}
