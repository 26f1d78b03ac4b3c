import { describe, expect, test } from 'vitest'
import { checkField, checkStudy, studyFile, type Issue, type Study } from '../../../engine/requirements/index.ts'
import { leastFile } from './study.ts'

const withPins = (pins: unknown) => checkStudy({ ...leastFile(), pins })

function issuesOf(pins: unknown): Issue[] {
  const checked = withPins(pins)
  return checked.ok ? [] : checked.issues
}

function studyOf(pins: unknown): Study {
  const checked = withPins(pins)
  if (!checked.ok) throw new Error(checked.issues.map(({ message }) => message).join(' '))
  return checked.study
}

describe('pins of a study', () => {
  test('values and part numbers are kept, and the file gives them back', () => {
    const pins = {
      shunt: { R1: 471.5, D1: 5.1 },
      'series-pass': { Q1: 'BD139-10' },
      feedback: { C1: 'Nichicon PW 56.0\u202FµF 25\u202FV' },
    }
    const study = studyOf(pins)
    expect(study.pins).toEqual(pins)
    expect(studyFile(study).pins).toEqual(pins)
    expect(studyFile(study).pins).not.toBe(study.pins)
    expect(checkStudy(studyFile(study))).toEqual({ ok: true, study })
  })

  test('a part number may be written with other spaces and capitals; the list’s own is kept', () => {
    const pins = { feedback: { C1: ' nichicon PW  56.0 \u03bcF 25\u00a0V', Q1: 'bd139-10' } }
    expect(studyOf(pins).pins).toEqual({ feedback: { Q1: 'BD139-10', C1: 'Nichicon PW 56.0\u202FµF 25\u202FV' } })
  })

  test.each([undefined, {}, { shunt: {} }])('without one, %j, the study has no such key', (pins) => {
    expect(studyOf(pins)).not.toHaveProperty('pins')
    expect(studyFile(studyOf(pins))).not.toHaveProperty('pins')
  })

  test('a value out of range says what it is and what is allowed', () => {
    expect(issuesOf({ shunt: { R1: 0 } })).toEqual([
      {
        path: 'pins.shunt.R1',
        code: 'range',
        message: expect.stringMatching(
          /^pins\.shunt\.R1 is 0 Ω; it must be a value from 0\.01 Ω to 100000000 Ω or the part number of one of the resistor types in the list \(/u,
        ),
      },
    ])
    expect(issuesOf({ feedback: { C2: 1 } })[0]).toMatchObject({ path: 'pins.feedback.C2', code: 'range' })
  })

  test('an unknown part number is refused with those that are most like it', () => {
    const [issue] = issuesOf({ shunt: { D1: '1N4739' } })
    expect(issue).toMatchObject({ path: 'pins.shunt.D1', code: 'choice' })
    expect(issue!.message).toContain('is the text "1N4739"; it must be a value from 1 V to 200 V or the part number of')
    expect(issue!.message).toContain('(1N4739A, ')
  })

  test('a transistor takes no value, and a diode’s number does not do for it', () => {
    expect(issuesOf({ 'series-pass': { Q1: 5 } })[0]).toMatchObject({ path: 'pins.series-pass.Q1', code: 'type' })
    expect(issuesOf({ 'series-pass': { Q1: '1N4739A' } })[0]).toMatchObject({ code: 'choice' })
    expect(issuesOf({ 'series-pass': { Q1: '1N4739A' } })[0]!.message).toContain('BD139-10, BD139-16')
  })

  test('an id that no variant has is named with those that there are', () => {
    expect(issuesOf({ shunt: { R9: 470 } })[0]).toEqual({
      path: 'pins.shunt.R9',
      code: 'unknown-key',
      message: 'pins.shunt.R9 is no part of any variant; known here: R1, R2, R3, D1, Q1, U1, HS1, C1.',
    })
    expect(issuesOf({ bridge: { R1: 470 } })[0]!.message).toContain('known here: shunt, series-pass, feedback')
  })

  test.each([[[]], [{ shunt: [] }], [{ shunt: { constructor: 4 } }], [{ shunt: { R1: null } }], [7], [null]])(
    'nonsense, %j, is a problem and no crash',
    (pins) => expect(issuesOf(pins).length).toBeGreaterThan(0),
  )
})

describe('one pin of a valid study', () => {
  const study = studyOf(undefined)

  test('is checked where there was none', () => {
    expect(checkField('pins.shunt.R1', 470, study)).toEqual([])
    expect(checkField('pins.series-pass.Q1', 'BD139-10', study)).toEqual([])
    expect(checkField('pins.series-pass.Q1', undefined, study)).toEqual([])
    expect(study).not.toHaveProperty('pins')
  })

  test('is refused with its label and prefixed units', () => {
    expect(checkField('pins.shunt.R1', 0, study)[0]!.message).toMatch(
      /^Pinned R1 of shunt is 0 Ω; it must be a value from 10 mΩ to 100 MΩ or the part number/u,
    )
  })
})
