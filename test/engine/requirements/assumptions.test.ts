/** What a study may assume: defaults, ranges, and names that are refused by name. */
import { describe, expect, test } from 'vitest'
import { checkField, checkStudy, type Study } from '../../../engine/requirements/index.ts'
import { leastFile } from './study.ts'

const assuming = (assumptions: unknown) => checkStudy({ ...leastFile(), assumptions })
const issuesOf = (assumptions: unknown) => {
  const checked = assuming(assumptions)
  return checked.ok ? [] : checked.issues
}
const study = (checkStudy(leastFile()) as { study: Study }).study

describe('assumptions', () => {
  test('take defaults for what is left out, and keep what is given', () => {
    expect(assuming({ quality: 'military', prices: { 'diode-do-35': 0.05 } })).toMatchObject({
      ok: true,
      study: {
        assumptions: { environment: 'ground-fixed', quality: 'military', prices: { 'diode-do-35': 0.05 }, areas: {} },
      },
    })
  })

  test('may be nothing: a price of 0 is a part that is there already', () => {
    expect(assuming({ prices: { 'diode-do-35': 0 }, areas: { 'to-3': 0 } })).toMatchObject({ ok: true })
  })

  test.each([
    [
      { prices: { 'diode-do-35': -0.1 } },
      'assumptions.prices.diode-do-35 is -0.1 EUR; it must be from 0 EUR to 1000 EUR.',
    ],
    [
      { prices: { 'diode-do-35': 1001 } },
      'assumptions.prices.diode-do-35 is 1001 EUR; it must be from 0 EUR to 1000 EUR.',
    ],
    [
      { prices: { 'diode-do-35': '3 cents' } },
      'assumptions.prices.diode-do-35 is the text "3 cents"; it must be a number from 0 EUR to 1000 EUR.',
    ],
    [{ areas: { 'to-220': 0.2 } }, 'assumptions.areas.to-220 is 0.2 m²; it must be from 0 m² to 0.1 m².'],
    [
      { environment: 'orbit' },
      'assumptions.environment is the text "orbit"; it must be "ground-benign", "ground-fixed" or "ground-mobile".',
    ],
  ])('%j: path, value and what is allowed', (assumptions, message) => {
    expect(issuesOf(assumptions).map((issue) => issue.message)).toEqual([message])
  })

  test.each(['dilithium', '__proto__', 'constructor'])('a price for %s is refused by name', (name) => {
    const issues = issuesOf(JSON.parse(`{"prices": {"${name}": 1}}`))
    expect(issues.map(({ code }) => code)).toEqual(['unknown-key'])
    expect(issues[0]!.message).toContain(name)
    expect(issues[0]!.message).toContain('diode-do-35')
  })

  test('are named by their labels on the page', () => {
    const issues = checkField('assumptions.areas.to-220', 0.2, study)
    expect(issues.map(({ message }) => message.replaceAll('\u202f', ' '))).toEqual([
      'Board area (TO-220, upright) is 2000 cm²; it must be from 0 m² to 1000 cm².',
    ])
    expect(checkField('assumptions.areas.to-220', 0.0003, study)).toEqual([])
    expect(checkField('assumptions.prices.dilithium', 1, study)).toHaveLength(1)
  })
})
