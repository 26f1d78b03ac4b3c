/** Every problem that a load profile can have, worded with its place, its value and what is allowed. */
import { describe, expect, it } from 'vitest'
import { checkField, checkStudy, studyFile } from '../../../engine/requirements/index.ts'
import { studyWith } from '../analyses/studies.ts'

const STUDY = studyWith({})

function problemsOf(profile: unknown): string[] {
  const checked = checkStudy({ ...studyFile(STUDY), profile })
  return checked.ok ? [] : checked.issues.map(({ message }) => message)
}

describe('problems of a load profile in a file', () => {
  it.each([
    [
      'currents above the most load',
      [{ load: 0.05, share: 1 }],
      'profile.0.load is 0.05 A; it must not be above requirements.load.max, 0.04 A.',
    ],
    [
      'currents below the least load',
      [{ load: 0.001, share: 1 }],
      'profile.0.load is 0.001 A; it must not be below requirements.load.min, 0.005 A.',
    ],
    [
      'an ambient that the design is not made for',
      [{ load: 0.02, share: 1, ambient: 60 }],
      'profile.0.ambient is 60 °C; it must not be above requirements.ambient.max, 50 °C.',
    ],
    ['a share above the whole', [{ load: 0.02, share: 90 }], 'profile.0.share is 90; it must be from 0 to 1.'],
    ['a share that is missing', [{ load: 0.02 }], 'profile.0.share is missing; it must be a number from 0 to 1.'],
    [
      'a current that is a text',
      [{ load: '20 mA', share: 1 }],
      'profile.0.load is the text "20 mA"; it must be a number from 0 A to 10 A.',
    ],
    [
      'a key that no row has',
      [{ load: 0.02, share: 1, hours: 3 }],
      'profile.0.hours is not a known key; known here: load, share, ambient.',
    ],
    ['no row', [], 'profile has 0 rows; it must be a list of 1 to 300 rows.'],
    [
      'too many rows',
      Array.from({ length: 301 }, () => ({ load: 0.02, share: 0.001 })),
      'profile has 301 rows; it must be a list of 1 to 300 rows.',
    ],
    ['something that is no list', { load: 0.02 }, 'profile is an object; it must be a list of 1 to 300 rows.'],
  ])('names %s', (_, profile, message) => {
    expect(problemsOf(profile)).toEqual([message])
  })

  it('names the sum of shares that exceed the time, and what is done with a lesser one', () => {
    const rows = [
      { load: 0.02, share: 0.7 },
      { load: 0.04, share: 0.35 },
    ]
    expect(problemsOf(rows)).toEqual([
      'profile has shares of time that sum to 1.05; they must not exceed 1 by more than 0.001. ' +
        'What they leave of the time is spent at the least load.',
    ])
  })

  it('forgives the rounding of thirds, and takes a lesser sum as it is', () => {
    expect(problemsOf([0.3337, 0.3337, 0.3336].map((share) => ({ load: 0.02, share })))).toEqual([])
    expect(problemsOf([{ load: 0.02, share: 0.4 }])).toEqual([])
  })
})

describe('problems of a load profile on the page', () => {
  const study = {
    ...STUDY,
    profile: [
      { load: 0.02, share: 0.9 },
      { load: 0.04, share: 0.1 },
    ],
  }

  it('speaks of rows as they are counted', () => {
    const [issue] = checkField('profile.1.load', 0.05, study)
    expect(issue).toMatchObject({
      message: 'Load profile, row 2, current is 50 mA; it must not be above Most load current, 40 mA.',
      nearest: 0.04,
    })
  })

  it('refuses a share with which the sum exceeds the time', () => {
    expect(checkField('profile.1.share', 0.2, study).map(({ message }) => message)).toEqual([
      expect.stringMatching(/^Load profile has shares of time that sum to 110 %; they must not exceed 100 %/u),
    ])
  })

  it('refuses a range of the load that leaves a row outside', () => {
    expect(checkField('load.max', 0.03, study).map(({ path }) => path)).toEqual(['profile.1.load'])
  })

  it('checks a whole profile with the problems of all its rows', () => {
    expect(
      checkField(
        'profile',
        [
          { load: 1, share: 0.2 },
          { load: 0.02, share: 2 },
        ],
        study,
      ).map(({ path }) => path),
    ).toEqual(['profile.1.share', 'profile.0.load'])
  })
})
