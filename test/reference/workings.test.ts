/** Every formula of every topology against a result worked out by hand, so that no change of a formula goes unseen. */
import { expect, test } from 'vitest'
import { HAND_WORKED, NUMBERS } from './worked/byHand.ts'
import { FORMULAS, valueOf } from './worked/formulas.ts'

/** Results are written to eight digits. */
const EIGHT_DIGITS = 1e-7

const distinct = FORMULAS.filter(
  (f, k) => FORMULAS.findIndex((g) => g.topology === f.topology && g.symbol === f.symbol && g.text === f.text) === k,
)

test.each(distinct)('$topology, $variant: $symbol = $text', ({ topology, symbol, variant, text }) => {
  const entries = HAND_WORKED.filter((entry) => entry.topology === topology && entry.symbol === symbol)
  const entry = entries.find((one) => one.variant === variant) ?? entries.find((one) => one.variant === undefined)
  if (entry === undefined) throw new Error(`${topology}, ${variant}: ${symbol} = ${text} was never worked out by hand`)
  const value = valueOf(text, NUMBERS[topology])
  expect(Math.abs(value / entry.result - 1), `${value}, by hand ${entry.result} (${entry.by})`).toBeLessThan(
    EIGHT_DIGITS,
  )
})

test('no result by hand is left over from a formula that is gone', () => {
  const idle = HAND_WORKED.filter(
    (entry) =>
      !FORMULAS.some(
        (f) =>
          f.topology === entry.topology &&
          f.symbol === entry.symbol &&
          (entry.variant === undefined || entry.variant === f.variant),
      ),
  )
  expect(idle).toEqual([])
})
