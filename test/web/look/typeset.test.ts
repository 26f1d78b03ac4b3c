import { describe, expect, it } from 'vitest'
import { typeset } from '../../../web/look/typeset.ts'

describe('typeset', () => {
  it('writes true minus signs and keeps a number with its unit', () => {
    expect(typeset('is -60 °C; it must be from -55 °C to 125 °C.')).toBe(
      'is \u221260\u202F°C; it must be from \u221255\u202F°C to 125\u202F°C.',
    )
    expect(typeset('from 1 µA to 10 A, 5 %')).toBe('from 1\u202FµA to 10\u202FA, 5\u202F%')
  })
  it('leaves hyphens, words and what is quoted as they are', () => {
    for (const text of ['a cut-off at 2N3904-B', 'step 3 and 4', 'at 1 Volt', '"-5 V" is no number', '“-5 V.json”']) {
      expect(typeset(text)).toBe(text)
    }
  })
})
