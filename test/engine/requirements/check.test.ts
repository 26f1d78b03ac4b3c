import { describe, expect, test } from 'vitest'
import { randomOf } from '../../../engine/random/index.ts'
import { checkStudy, studyFile, type Issue } from '../../../engine/requirements/index.ts'
import { anyStudy, leastFile } from './study.ts'

function issuesOf(value: unknown): Issue[] {
  const checked = checkStudy(value)
  return checked.ok ? [] : checked.issues
}

/** The problems of the smallest file with one value put in at `path`, as [path, code]. */
function spoiled(path: string, value: unknown): [string, string][] {
  return issuesOf(withValue(path, value)).map((issue) => [issue.path, issue.code])
}

function withValue(path: string, value: unknown): unknown {
  const file = leastFile()
  const keys = path.split('.')
  const last = keys.pop()!
  let place: Record<string, unknown> = file
  for (const key of keys) place = (place[key] ??= {}) as Record<string, unknown>
  place[last] = value
  return file
}

describe('defaults', () => {
  test('fill what the smallest file leaves out', () => {
    expect(checkStudy(leastFile())).toEqual({
      ok: true,
      study: {
        title: 'Untitled study',
        requirements: {
          input: { min: 8.5, nominal: 11.55, max: 14.6, ripple: 0, rippleFrequency: 100 },
          output: { voltage: 5, tolerance: 0.08 },
          load: { min: 0.002, nominal: 0.06, max: 0.06, permanent: false },
          ambient: { min: -20, nominal: 15, max: 50 },
          limits: { survivesShort: false },
          parts: { resistorSeries: 'E24', resistorTolerance: 0.01, mounting: 'through-hole' },
          derating: 'standard',
        },
        assumptions: { environment: 'ground-fixed', quality: 'commercial', prices: {}, areas: {} },
        weights: { efficiency: 3, heat: 3, partCount: 2, loadRegulation: 3 },
      },
    })
  })

  test('weights that are given are all the weights', () => {
    const checked = checkStudy({ ...leastFile(), weights: { heat: 5 } })
    expect(checked.ok && checked.study.weights).toEqual({ heat: 5 })
  })

  test('an undefined value counts as left out', () => {
    expect(checkStudy(withValue('requirements.limits', { loadRegulation: undefined }))).toEqual(checkStudy(leastFile()))
  })
})

describe('a valid study', () => {
  test('comes back from its file exactly, through JSON too', () => {
    for (let k = 0; k < 500; k++) {
      const study = anyStudy(randomOf(4, k))
      expect(checkStudy(studyFile(study))).toEqual({ ok: true, study })
      expect(checkStudy(JSON.parse(JSON.stringify(studyFile(study))))).toEqual({ ok: true, study })
    }
  })

  test('shares nothing with the file it came from', () => {
    const file = leastFile()
    const checked = checkStudy(file)
    file.requirements.input['min'] = 99
    expect(checked.ok && checked.study.requirements.input.min).toBe(8.5)
  })

  test.each([
    ['requirements.output.voltage', 14.5],
    ['requirements.input.ripple', 6],
    ['requirements.load.min', 0],
    ['requirements.load.max', 10],
    ['requirements.input.min', 14.6],
    ['requirements.input.nominal', 14.6],
    ['requirements.ambient.min', -55],
    ['requirements.ambient.max', 125],
    ['requirements.output.tolerance', 0.3],
    ['requirements.output.tolerance', 0.001],
    ['weights.heat', 0],
    ['weights.lineRegulation', 10],
    ['title', ''],
  ])('may have %s = %s', (path, value) => {
    expect(spoiled(path, value)).toEqual([])
  })

  test('minus zero becomes zero, which JSON cannot tell apart', () => {
    const checked = checkStudy(withValue('requirements.load.min', -0))
    expect(checked.ok && Object.is(checked.study.requirements.load.min, 0)).toBe(true)
  })
})

describe('allowed values, from the published file format', () => {
  test.each([
    ['requirements.input.min', 0.99, 'range'],
    ['requirements.input.max', 100.1, 'range'],
    ['requirements.output.voltage', 0.9, 'range'],
    ['requirements.output.voltage', 60.1, 'range'],
    ['requirements.output.tolerance', 0.0009, 'range'],
    ['requirements.output.tolerance', 0.31, 'range'],
    ['requirements.output.tolerance', 8, 'range'],
    ['requirements.load.max', 0.9e-6, 'range'],
    ['requirements.load.max', 0, 'range'],
    ['requirements.load.max', 10.1, 'range'],
    ['requirements.load.min', -0.001, 'range'],
    ['requirements.ambient.min', -55.1, 'range'],
    ['requirements.ambient.max', 125.1, 'range'],
    ['requirements.input.ripple', -0.1, 'range'],
    ['requirements.input.rippleFrequency', 0, 'range'],
    ['requirements.limits.loadRegulation', -0.01, 'range'],
    ['requirements.parts.resistorTolerance', 0.5, 'range'],
    ['requirements.parts.resistorSeries', 'E3', 'choice'],
    ['requirements.parts.mounting', 'smd', 'choice'],
    ['requirements.derating', 'hard', 'choice'],
    ['requirements.limits.survivesShort', 1, 'type'],
    ['requirements.load.permanent', 'yes', 'type'],
    ['weights.heat', 10.1, 'range'],
    ['weights.heat', -1, 'range'],
    ['title', 5, 'type'],
    ['title', 'x'.repeat(201), 'length'],
    ['notes', ['a'], 'type'],
    ['notes', 'x'.repeat(10_001), 'length'],
    ['format', 'other', 'format'],
    ['version', '1', 'version'],
    ['version', 0, 'version'],
  ])('%s may not be %s', (path, value, code) => {
    expect(spoiled(path, value)).toEqual([[path, code]])
  })

  test.each([NaN, Infinity, -Infinity, '8.5', '', null, true, [], {}, [8.5], 1n, Symbol('x'), () => 1])(
    'a number may not be %o',
    (value) => {
      const [issue, ...others] = issuesOf(withValue('requirements.input.min', value))
      expect(others).toEqual([])
      expect(issue?.path).toBe('requirements.input.min')
      expect(issue?.message).toMatch(/^requirements\.input\.min is .*; it must be (a number )?from 1 V to 100 V\.$/u)
    },
  )

  test('the message has path, value and range', () => {
    expect(issuesOf(withValue('requirements.input.max', 250))[0]).toEqual({
      path: 'requirements.input.max',
      code: 'range',
      message: 'requirements.input.max is 250 V; it must be from 1 V to 100 V.',
      nearest: 100,
    })
    expect(issuesOf(withValue('requirements.output.tolerance', 8))[0]?.message).toBe(
      'requirements.output.tolerance is 8; it must be from 0.001 to 0.3.',
    )
    expect(issuesOf(withValue('requirements.load.max', 0))[0]?.message).toBe(
      'requirements.load.max is 0 A; it must be from 0.000001 A to 10 A.',
    )
  })
})

describe('rules between fields', () => {
  test.each([
    ['input.min', 14.7, 'input.min'],
    ['input.nominal', 8.4, 'input.nominal'],
    ['input.nominal', 14.7, 'input.nominal'],
    ['input.ripple', 6.2, 'input.ripple'],
    ['output.voltage', 14.6, 'output.voltage'],
    ['output.voltage', 20, 'output.voltage'],
    ['load.min', 0.07, 'load.min'],
    ['load.nominal', 0.001, 'load.nominal'],
    ['load.nominal', 0.07, 'load.nominal'],
    ['ambient.min', 51, 'ambient.min'],
    ['ambient.nominal', 51, 'ambient.nominal'],
    ['ambient.nominal', -21, 'ambient.nominal'],
  ])('%s may not be %d here', (name, value, at) => {
    expect(spoiled(`requirements.${name}`, value)).toEqual([[`requirements.${at}`, 'order']])
  })

  test('a fixed input without ripple is allowed', () => {
    expect(issuesOf(withValue('requirements.input', { min: 12, max: 12 }))).toEqual([])
    expect(spoiled('requirements.input', { min: 12, max: 12, ripple: 0.1 })).toEqual([
      ['requirements.input.ripple', 'order'],
    ])
  })

  test('both values are named', () => {
    expect(issuesOf(withValue('requirements.output.voltage', 14.6))[0]?.message).toContain(
      'requirements.output.voltage is 14.6 V; it must be below requirements.input.max, 14.6 V',
    )
  })

  test('a value that is already refused starts no second quarrel', () => {
    expect(spoiled('requirements.input.max', 0)).toEqual([['requirements.input.max', 'range']])
  })
})

describe('every problem at once', () => {
  test('each value that is wrong is named', () => {
    const file = leastFile()
    file['title'] = 5
    file['extra'] = 1
    file['weights'] = { heat: 11, beauty: 3 }
    file.requirements.input = { min: 'low', nominal: 3, max: 250, ripple: -1 }
    file.requirements.load = { min: 5, max: 3 }
    file.requirements['derating'] = null
    delete file.requirements.output['voltage']
    expect(
      issuesOf(file)
        .map((issue) => issue.path)
        .toSorted(),
    ).toEqual([
      'extra',
      'requirements.derating',
      'requirements.input.max',
      'requirements.input.min',
      'requirements.input.ripple',
      'requirements.load.min',
      'requirements.output.voltage',
      'title',
      'weights.beauty',
      'weights.heat',
    ])
  })

  test.each([
    'format',
    'version',
    'requirements',
    'requirements.input',
    'requirements.ambient.max',
    'requirements.load.min',
  ])('a missing %s is named', (path) => {
    const file = withValue(path, undefined)
    expect(issuesOf(file).map((issue) => [issue.path, issue.code])).toEqual([[path, 'missing']])
  })
})

describe('unknown keys', () => {
  test('are named with the keys that are known', () => {
    expect(issuesOf(withValue('requirements.output.tolerence', 0.1))[0]).toMatchObject({
      path: 'requirements.output.tolerence',
      code: 'unknown-key',
      message: 'requirements.output.tolerence is not a known key; known here: voltage, tolerance.',
    })
  })

  test('a weight that is no figure is told the figures', () => {
    const message = issuesOf(withValue('weights.beauty', 1))[0]?.message
    expect(message).toContain('efficiency, heat, partCount, loadRegulation, lineRegulation, standbyPower')
    expect(checkStudy(withValue('weights.beauty', 1), ['beauty', 'heat']).ok).toBe(true)
    expect(checkStudy(withValue('weights.efficiency', 1), ['beauty', 'heat']).ok).toBe(false)
  })

  test.each(['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'prototype'])(
    '%s is a key like all others',
    (key) => {
      const places = ['{KEY,"format"', '"requirements":{KEY,', '"input":{KEY,', '"weights":{KEY,']
      for (const place of places) {
        const text = JSON.stringify({ ...leastFile(), weights: { heat: 1 } })
        const spoiltText = text.replace(
          place.replace('KEY,', ''),
          place.replace('KEY', `${JSON.stringify(key)}:{"min":1}`),
        )
        const issues = issuesOf(JSON.parse(spoiltText))
        expect(issues.map((issue) => issue.code)).toEqual(['unknown-key'])
        expect(issues[0]?.path).toContain(key)
      }
      expect(({} as Record<string, unknown>)['min']).toBeUndefined()
    },
  )

  test('a hundred thousand of them are counted, not listed', () => {
    const file = { ...leastFile(), ...Object.fromEntries(Array.from({ length: 1e5 }, (_, k) => [`k${k}`, k])) }
    const issues = issuesOf(file)
    expect(issues).toHaveLength(21)
    expect(issues.at(-1)?.message).toBe('The study has 99980 more unknown keys.')
  })

  test('line breaks and endless keys stay on one short line', () => {
    for (const issue of issuesOf({
      ...leastFile(),
      ['a\nb\u2028']: 1,
      ['x'.repeat(1e5)]: 1,
      title: `\n${'y'.repeat(1e5)}`,
    })) {
      expect(issue.message).not.toMatch(/[\n\r\u2028\u2029]/u)
      expect(issue.message.length).toBeLessThan(300)
    }
  })
})

describe('what is no study at all', () => {
  test.each([undefined, null, 5, 'text', true, [], [leastFile()], () => 1, 1n])('%o is refused', (value) => {
    expect(issuesOf(value)).toMatchObject([{ path: '', code: 'type' }])
  })

  test.each(['requirements', 'requirements.input', 'requirements.limits', 'requirements.parts', 'weights'])(
    '%s may be neither a list nor a text nor a number',
    (path) => {
      for (const value of [[], [1], 'x', 5, null, true]) expect(spoiled(path, value)).toEqual([[path, 'type']])
    },
  )

  test('an object that refers to itself is no trap', () => {
    const file = leastFile()
    file['self'] = file
    file.requirements.input['min'] = file
    expect(issuesOf(file).map((issue) => issue.path)).toEqual(['self', 'requirements.input.min'])
  })
})
