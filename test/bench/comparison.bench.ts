/** Whole comparisons of the page's examples, warm, as the headless run makes them; and the memory that they take. */
import { describe } from 'vitest'
import { subject } from './bundled.ts'
import { timed } from './timed.ts'

const { compare, EXAMPLES } = subject

/** Largest resident set of this process so far, in MB: Node and the test runner (about the first figure) included. */
const peak = () => process.resourceUsage().maxRSS / 1024
const before = peak()

describe('whole comparison', () => {
  EXAMPLES.forEach(({ id, study }, k) => {
    const isLast = k === EXAMPLES.length - 1
    timed(id, () => compare(study), {
      says: (ms) => {
        const memory = `; peak memory ${peak().toFixed(0)} MB, ${before.toFixed(0)} MB of it before the first comparison`
        return `${(1000 / ms).toFixed(1)} a second${isLast ? memory : ''}`
      },
    })
  })
})
