import { erf } from 'mathjs'
import { expect, test } from 'vitest'
import { normalQuantile } from '../../../engine/random/quantile.ts'

// Source of the values: SciPy 1.17.1, scipy.stats.norm.ppf
test.each([
  [1e-20, -9.262340089798409],
  [1e-9, -5.9978070150076865],
  [0.0013498980316300946, -3],
  [0.025, -1.9599639845400545],
  [0.075, -1.4395314709384563],
  [0.3, -0.5244005127080409],
  [0.77, 0.7388468491852137],
  [0.95, 1.6448536269514722],
  [0.999, 3.090232306167813],
])('the quantile of %d is %d', (p, value) => {
  expect(Math.abs(normalQuantile(p) / value - 1)).toBeLessThan(2e-14)
})

test('the quantile of one half is 0, and the distribution function turns it back', () => {
  expect(normalQuantile(0.5)).toBe(0)
  for (let k = 1; k < 200; k++) {
    const p = k / 200
    // the independent error function is good to about 1e-15
    expect(0.5 * (1 + erf(normalQuantile(p) / Math.SQRT2))).toBeCloseTo(p, 13)
  }
})
