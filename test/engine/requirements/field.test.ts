import { describe, expect, test } from 'vitest'
import {
  checkField,
  checkStudy,
  CHOICES,
  labelOf,
  RANGES,
  rangeOf,
  rangeText,
  SWITCHES,
  type NumberPath,
  type Study,
} from '../../../engine/requirements/index.ts'
import { dimensionOf } from '../../../engine/units/index.ts'
import { leastFile } from './study.ts'

function study(): Study {
  const checked = checkStudy(leastFile())
  if (!checked.ok) throw new Error('the smallest study must be valid')
  return checked.study
}

const PATHS = Object.keys(RANGES) as NumberPath[]

describe('checkField', () => {
  test('accepts every value that a valid study has', () => {
    const { requirements } = study() as unknown as { requirements: Record<string, Record<string, unknown>> }
    for (const path of PATHS) {
      const [section = '', key = ''] = path.split('.')
      expect(checkField(path, requirements[section]?.[key], study())).toEqual([])
    }
  })

  test.each(PATHS)('%s is refused outside of its range with its label and range', (path) => {
    const { label, min, max } = RANGES[path]
    for (const [value, nearest] of [
      [min - 1, min],
      [max * 2 + 1, max],
    ] as const) {
      const [issue] = checkField(path, value, study())
      expect(issue).toMatchObject({ path: `requirements.${path}`, code: 'range', nearest })
      expect(issue?.message.startsWith(`${label} is `)).toBe(true)
      expect(issue?.message.endsWith(`; it must be from ${rangeText(RANGES[path])}.`)).toBe(true)
    }
  })

  test('speaks in prefixed units and per cent', () => {
    expect(checkField('output.tolerance', 0.5, study())[0]?.message).toBe(
      'Output band is 50 %; it must be from 0.1 % to 30 %.',
    )
    expect(checkField('load.max', 20, study())[0]?.message).toBe(
      'Most load current is 20 A; it must be from 1 µA to 10 A.',
    )
  })

  test('sees the rules in which the field has a part, from either side', () => {
    expect(checkField('input.max', 5, study()).map((issue) => issue.path)).toEqual([
      'requirements.input.min',
      'requirements.output.voltage',
    ])
    expect(checkField('output.voltage', 20, study())[0]?.message).toContain(
      'Output voltage is 20 V; it must be below Highest input voltage, 14.6 V',
    )
  })

  test('takes the path of the file as well, weights and words too', () => {
    expect(checkField('requirements.input.max', 250, study())).toEqual(checkField('input.max', 250, study()))
    expect(checkField('weights.heat', 11, study())[0]?.message).toBe('Weight of heat is 11; it must be from 0 to 10.')
    expect(checkField('weights.heat', 5, study())).toEqual([])
    expect(checkField('parts.mounting', 'any', study())).toEqual([])
    expect(checkField('parts.mounting', 'glue', study())[0]?.code).toBe('choice')
    expect(checkField('derating', 'none', study())).toEqual([])
    expect(checkField('title', 'x'.repeat(201), study())[0]?.code).toBe('length')
  })

  test('a limit may be left out, a required value may not', () => {
    expect(checkField('limits.loadRegulation', undefined, study())).toEqual([])
    expect(checkField('input.max', undefined, study())[0]?.code).toBe('missing')
  })

  test.each(['input.colour', 'nothing.here', '__proto__.x', 'input.__proto__', 'weights.beauty'])(
    '%s is not known',
    (path) => {
      expect(checkField(path, 1, study())[0]?.code).toBe('unknown-key')
    },
  )

  test('leaves the study as it was', () => {
    const before = study()
    checkField('input.max', 250, before)
    expect(before).toEqual(study())
  })
})

describe('the fields as data', () => {
  test('every range has a label, a known unit and room', () => {
    for (const path of PATHS) {
      const { label, unit, min, max } = RANGES[path]
      expect(label).not.toBe('')
      expect(min).toBeLessThan(max)
      expect(() => dimensionOf(unit)).not.toThrow()
    }
  })

  test('labels name one field each', () => {
    const labels = [...PATHS, ...Object.keys(CHOICES), ...Object.keys(SWITCHES)].map(labelOf)
    expect(new Set(labels).size).toBe(labels.length)
  })

  test('rangeOf knows weights and refuses what is no number', () => {
    expect(rangeOf('weights.heat')).toMatchObject({ label: 'Weight of heat', min: 0, max: 10 })
    expect(rangeOf('derating')).toBeUndefined()
    expect(rangeOf('constructor')).toBeUndefined()
  })
})
