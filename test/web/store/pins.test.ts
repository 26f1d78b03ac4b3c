/** Pins in the study: typed, refused, undone, kept over a reload, and gone without a trace. */
import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it } from 'vitest'
import { withPath, writeStudyFile } from '../../../web/store/check.ts'
import { partsFileName } from '../../../web/screens/parts/sheet.ts'
import { meantPin } from '../../../web/store/pins.ts'
import { useStudyStore } from '../../../web/store/study.ts'

const plain = (text: string | undefined) => text?.replace(/\s/gu, ' ')

beforeEach(() => {
  localStorage.clear()
  sessionStorage.clear()
  setActivePinia(createPinia())
})

describe('what is typed as a pin', () => {
  it.each([
    ['pins.shunt.R1', '4k7', 4700],
    ['pins.shunt.R1', '471,5 Ω', 471.5],
    ['pins.feedback.C1', '22 µF', 22e-6],
    ['pins.shunt.D1', '5.1', 5.1],
    ['pins.series-pass.Q1', 'bd139-10', 'BD139-10'],
    ['pins.feedback.C1', 'nichicon pw 56.0 µF 25 V', 'Nichicon PW 56.0\u202FµF 25\u202FV'],
    ['pins.series-pass.Q1', '4k7', '4k7'],
  ] as const)('at %s, %s means %s', (path, text, meant) => expect(meantPin(path, text)).toEqual(meant))
})

describe('a pin', () => {
  it('is one step of undo, in words, and leaves no trace when it is gone', () => {
    const studies = useStudyStore()
    const before = writeStudyFile(studies.study)
    expect(before).not.toContain('pins')
    expect(studies.enter('pins.shunt.R1', '4k7')).toBe(true)
    expect(studies.study.pins).toEqual({ shunt: { R1: 4700 } })
    expect(plain(studies.undoStep?.label)).toBe('Pin on R1 of shunt: none → 4.7 kΩ')
    studies.enter('pins.shunt.R1', '5k1')
    expect(plain(studies.undoStep?.label)).toBe('Pin on R1 of shunt: 4.7 → 5.1 kΩ')
    studies.undo()
    expect(studies.study.pins).toEqual({ shunt: { R1: 4700 } })
    studies.undo()
    expect(writeStudyFile(studies.study)).toBe(before)
    studies.redo()
    studies.enter('pins.shunt.R1', ' ')
    expect(studies.study).not.toHaveProperty('pins')
    expect(writeStudyFile(studies.study)).toBe(before)
  })

  it('of two leaves the other in place', () => {
    const studies = useStudyStore()
    studies.enter('pins.shunt.R1', '4k7')
    studies.enter('pins.feedback.Q1', 'TIP31C')
    studies.edit('pins.shunt.R1', undefined)
    expect(studies.study.pins).toEqual({ feedback: { Q1: 'TIP31C' } })
  })

  it('that cannot be, waits with its reason and changes nothing', () => {
    const studies = useStudyStore()
    expect(studies.enter('pins.series-pass.Q1', 'BD13')).toBe(false)
    expect(studies.study).not.toHaveProperty('pins')
    expect(studies.entries['pins.series-pass.Q1']!.text).toBe('BD13')
    expect(studies.entries['pins.series-pass.Q1']!.problem).toMatch(
      /^Pinned Q1 of series-pass is the text "BD13"; it must be the part number of one of the transistors in the list \(2N3904, /u,
    )
    studies.enter('pins.shunt.R1', '0')
    expect(studies.entries['pins.shunt.R1']!.problem).toMatch(/is 0 Ω; it must be a value from 10 mΩ to 100 MΩ or /u)
    studies.restore('pins.shunt.R1')
    expect(studies.entries).not.toHaveProperty(['pins.shunt.R1'])
  })

  it('is there again after a reload, and so is one that waits', () => {
    const first = useStudyStore()
    first.enter('pins.shunt.R1', '4k7')
    first.enter('pins.shunt.D1', 'nothing like it')
    setActivePinia(createPinia())
    const second = useStudyStore()
    expect(second.study.pins).toEqual({ shunt: { R1: 4700 } })
    expect(second.entries['pins.shunt.D1']!.text).toBe('nothing like it')
  })

  it('put where there was none does not touch the study before', () => {
    const { study } = useStudyStore()
    const next = withPath(study, 'pins.feedback.R1', 10)
    expect(next.pins).toEqual({ feedback: { R1: 10 } })
    expect(study).not.toHaveProperty('pins')
  })
})

it('a parts file is named after study and topology', () => {
  expect(partsFileName('Orchard frost: logger!', 'series-pass')).toBe('orchard-frost-logger-series-pass-parts.csv')
})
