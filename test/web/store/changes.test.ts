/** What changed in words: nothing that differs goes unnamed, for what is unnamed would not be an undo step. */
import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it } from 'vitest'
import { randomOf } from '../../../engine/random/index.ts'
import type { Study } from '../../../engine/requirements/index.ts'
import { describeChange } from '../../../web/store/changes.ts'
import { useStudyStore } from '../../../web/store/study.ts'
import { anyStudy } from '../../engine/requirements/study.ts'
import { generateStudies } from '../../fixtures/studies/generate.ts'

const [STUDY] = generateStudies(81, 1) as [Study]
const row = { load: STUDY.requirements.load.max, share: 0.25 }
const plain = (text: string | undefined) => text?.replace(/\s/gu, ' ')
const labelOf = (before: Study, after: Study) => plain(describeChange(before, after)?.label)

describe('a change in words', () => {
  it('of notes, of pins and of rows of a profile names them', () => {
    expect(labelOf(STUDY, { ...STUDY, notes: 'Ask.' })).toBe('Notes')
    expect(labelOf(STUDY, { ...STUDY, pins: { shunt: { R1: 4700 } } })).toBe('Pin on R1 of shunt: none → 4.7 kΩ')
    expect(labelOf(STUDY, { ...STUDY, profile: [row] })).toBe('Load profile')
    const [one, two] = [
      { ...STUDY, profile: [row] },
      { ...STUDY, profile: [row, row] },
    ]
    expect(labelOf(one, two)).toBe('Load profile')
    expect(labelOf(two, one)).toBe('Load profile')
    expect(labelOf(one, { ...STUDY, profile: [{ ...row, share: 0.5 }] })).toBe(
      'Load profile, row 1, share of time 25 → 50 %',
    )
  })

  it('of a key that has no field names the key', () => {
    expect(labelOf(STUDY, { ...STUDY, novelty: [{ a: 1 }] } as Study)).toBe('Novelty')
    const deeper = { ...STUDY, requirements: { ...STUDY.requirements, novelty: 1 } }
    expect(labelOf(STUDY, deeper)).toBe('Requirements')
  })

  it('counts what goes with the first one', () => {
    const after = { ...STUDY, title: 'Other', notes: 'Ask.', profile: [row] }
    expect(labelOf(STUDY, after)).toBe(`Title ${STUDY.title} → Other and 2 more`)
    expect(labelOf(STUDY, { ...STUDY, notes: 'Ask.', profile: [row] })).toBe('Notes and 1 more')
  })

  it('there is none between equal studies, however their keys are ordered, and one between any two others', () => {
    const studies = Array.from({ length: 300 }, (_, k) => anyStudy(randomOf(82, k)))
    for (const [k, study] of studies.entries()) {
      const turned = Object.fromEntries(Object.entries(structuredClone(study)).toReversed()) as unknown as Study
      expect(describeChange(study, turned)).toBeUndefined()
      expect(describeChange(study, studies[(k + 1) % studies.length]!)).toBeDefined()
      for (const key of ['notes', 'pins', 'profile'] as const) {
        const { [key]: gone, ...less } = study
        expect(describeChange(study, less) !== undefined, key).toBe(gone !== undefined)
      }
    }
  })
})

describe('an edit', () => {
  beforeEach(() => {
    localStorage.clear()
    sessionStorage.clear()
    setActivePinia(createPinia())
  })

  it('of notes, a pin and a profile is in force and can be undone, alone and together', () => {
    const studies = useStudyStore()
    const before = studies.study
    studies.edit('notes', 'Ask.')
    studies.edit('pins.shunt.R1', 4700)
    studies.editProfile([{ load: before.requirements.load.max, share: 0.5 }], 'one row')
    studies.edit('profile.0.share', 0.25)
    expect(studies.study).toMatchObject({ notes: 'Ask.', pins: { shunt: { R1: 4700 } }, profile: [{ share: 0.25 }] })
    expect(studies.undoSteps.length).toBe(4)
    studies.editAll({ notes: undefined, 'profile.0.share': 0.75, 'pins.shunt.R1': undefined })
    expect(studies.study).not.toHaveProperty('notes')
    expect(studies.study).not.toHaveProperty('pins')
    expect(studies.study.profile).toMatchObject([{ share: 0.75 }])
    expect(studies.undoSteps.length).toBe(5)
    while (studies.undoStep) studies.undo()
    expect(studies.study).toBe(before)
  })
})
