import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it, vi } from 'vitest'
import { storageDenied } from '../../../web/store/persistence.ts'
import { UNDO_STEPS, useStudyStore } from '../../../web/store/study.ts'

/** A page opened anew: stores start over, storage stays. */
function reopen() {
  setActivePinia(createPinia())
  return useStudyStore()
}

/** All tests start from the first example, whatever its numbers are tuned to: a known input range is put in force. */
function opened() {
  const store = reopen()
  const [first] = store.examples
  const { requirements } = first!.study
  store.loadStudy({
    ...first!.study,
    requirements: {
      ...requirements,
      input: { ...requirements.input, min: 9, nominal: 11, max: 14, ripple: 0.1 },
      output: { voltage: 5, tolerance: 0.05 },
    },
  })
  return store
}

function withResolvers<T>(): { promise: Promise<T>; resolve: (value: T) => void } {
  let resolve!: (value: T) => void
  return { promise: new Promise<T>((done) => (resolve = done)), resolve }
}

/** What this tab holds, to come back to it. */
function heldByTab(): [string, string][] {
  const keys = Array.from({ length: sessionStorage.length }, (_, i) => sessionStorage.key(i)!)
  return keys.map((key) => [key, sessionStorage.getItem(key)!])
}

/** Another tab, with what it held. */
function goToTab(held: readonly [string, string][] = []): void {
  sessionStorage.clear()
  for (const [key, text] of held) sessionStorage.setItem(key, text)
}

const refuse = () => {
  throw new DOMException('denied', 'SecurityError')
}

beforeEach(() => {
  localStorage.clear()
  sessionStorage.clear()
})

describe('entering a value', () => {
  it('reads values as engineers write them', () => {
    const store = opened()
    const input = () => store.study.requirements.input
    expect(store.enter('input.max', '14V4')).toBe(true)
    expect(input().max).toBe(14.4)
    store.enter('input.ripple', '.25')
    expect(input().ripple).toBe(0.25)
    store.enter('input.ripple', '300 mV')
    expect(input().ripple).toBe(0.3)
    store.enter('load.min', '200 u')
    expect(store.study.requirements.load.min).toBe(0.0002)
    store.enter('load.min', '150 µA')
    expect(store.study.requirements.load.min).toBe(0.00015)
    store.enter('output.tolerance', '±4 %')
    expect(store.study.requirements.output.tolerance).toBe(0.04)
  })

  it('keeps the value exactly as typed', () => {
    const store = opened()
    store.enter('input.max', '13.8765 V')
    expect(store.study.requirements.input.max).toBe(13.8765)
  })

  it('refuses a value outside its range and keeps the last good one in force', () => {
    const store = opened()
    const before = store.study
    expect(store.enter('output.tolerance', '45 %')).toBe(false)
    expect(store.study).toBe(before)
    const { text, problem, fix } = store.entries['output.tolerance']!
    expect(text).toBe('45 %')
    expect(problem).toContain('Output band')
    expect(problem).toContain('45 %')
    expect(problem).toContain('30 %')
    expect(fix?.value).toBe(0.3)
  })

  it('refuses what is no value at all, and names the field', () => {
    const store = opened()
    expect(store.enter('input.max', 'a lot')).toBe(false)
    expect(store.entries['input.max']!.problem).toMatch(/^Highest input voltage: "a lot"/u)
    expect(store.study.requirements.input.max).toBe(14)
  })

  it('suggests per cent for a bare number', () => {
    const store = opened()
    store.enter('output.tolerance', '7')
    expect(store.entries['output.tolerance']!.fix).toEqual({ label: '±7 %'.replace(' ', '\u202F'), value: 0.07 })
  })

  it('refuses a lowest input above the highest and suggests the nearest that fits', () => {
    const store = opened()
    expect(store.enter('input.min', '20')).toBe(false)
    expect(store.study.requirements.input.min).toBe(9)
    expect(store.entries['input.min']!.fix?.value).toBe(11)
  })

  it('puts a waiting entry in force as soon as the others allow it', () => {
    const store = opened()
    store.enter('input.min', '20')
    store.enter('input.nominal', '22')
    expect(Object.keys(store.entries)).toEqual(['input.min', 'input.nominal'])
    store.enter('input.max', '25')
    expect(store.study.requirements.input).toMatchObject({ min: 20, nominal: 22, max: 25 })
    expect(store.entries).toEqual({})
    store.undo()
    expect(store.study.requirements.input).toMatchObject({ min: 9, nominal: 11, max: 14 })
  })

  it('reads a limit with its sign, and says how to have none', () => {
    const store = opened()
    for (const text of ['<= 3 %', '≤3%', '< 3 %']) {
      store.enter('limits.loadRegulation', '1 %')
      expect(store.enter('limits.loadRegulation', text)).toBe(true)
      expect(store.study.requirements.limits.loadRegulation).toBe(0.03)
    }
    store.enter('limits.loadRegulation', 'none')
    expect(store.entries['limits.loadRegulation']!.problem).toContain('An empty entry is not judged.')
  })

  it('names the study, and leaves it untitled without a name', () => {
    const store = opened()
    store.rename('  Relay rail ')
    expect(store.study.title).toBe('Relay rail')
    expect(store.undoStep!.label).toContain('Relay rail')
    store.rename('  ')
    expect(store.study.title).toBe('Untitled study')
  })

  it('puts several values in force as one step, or none of them', () => {
    const store = opened()
    const steps = store.undoSteps.length
    expect(store.editAll({ 'output.tolerance': 0.12, 'limits.lineRegulation': 0.09 })).toBe(true)
    expect(store.study.requirements.output.tolerance).toBe(0.12)
    expect(store.study.requirements.limits.lineRegulation).toBe(0.09)
    expect(store.undoSteps.length).toBe(steps + 1)
    const before = store.study
    expect(store.editAll({ 'output.tolerance': 0.13, 'limits.lineRegulation': 7 })).toBe(false)
    expect(store.study).toBe(before)
  })

  it('leaves a limit unjudged when its entry is emptied', () => {
    const store = opened()
    store.enter('limits.outputRipple', '20 mV')
    expect(store.study.requirements.limits.outputRipple).toBe(0.02)
    store.enter('limits.outputRipple', ' ')
    expect('outputRipple' in store.study.requirements.limits).toBe(false)
    expect(store.entries).toEqual({})
  })

  it('goes back to the value in force on request', () => {
    const store = opened()
    store.enter('input.max', '1 GV')
    store.restore('input.max')
    expect(store.entries).toEqual({})
    expect(store.study.requirements.input.max).toBe(14)
  })
})

describe('undo', () => {
  it('says what it will undo, with the unit once', () => {
    const store = opened()
    store.enter('input.max', '14.4')
    expect(store.undoStep).toMatchObject({
      label: 'Highest input voltage 14.0 → 14.4\u202FV',
      short: '14.0 → 14.4\u202FV',
    })
    store.edit('parts.mounting', 'surface-mount')
    expect(store.undoStep!.label).toBe('Mounting through-hole → surface')
    store.enter('limits.loadRegulation', '')
    expect(store.undoStep!.label).toContain('→ not judged')
  })

  it('walks back and forth', () => {
    const store = opened()
    store.enter('input.max', '15')
    store.enter('load.max', '300 mA')
    store.undo()
    store.undo()
    expect(store.study.requirements.input.max).toBe(14)
    expect(store.redoStep!.label).toContain('15.0')
    store.redo()
    expect(store.study.requirements.input.max).toBe(15)
    store.enter('input.max', '16')
    expect(store.redoStep).toBeUndefined()
  })

  it('takes the edits of one gesture as one step', () => {
    const store = opened()
    const steps = store.undoSteps.length
    for (const max of [14.2, 14.7, 15.3]) store.edit('input.max', max, { gesture: 'drag 1' })
    expect(store.undoSteps.length).toBe(steps + 1)
    expect(store.undoStep!.short).toBe('14.0 → 15.3\u202FV')
    store.edit('input.max', 15.4, { gesture: 'drag 2' })
    expect(store.undoSteps.length).toBe(steps + 2)
    store.undo()
    store.undo()
    expect(store.study.requirements.input.max).toBe(14)
  })

  it(`keeps ${UNDO_STEPS} steps`, () => {
    const store = opened()
    for (let i = 1; i <= UNDO_STEPS + 5; i++) store.edit('input.max', 14 + i / 100)
    expect(store.undoSteps.length).toBe(UNDO_STEPS)
    for (let i = 0; i < UNDO_STEPS; i++) store.undo()
    expect(store.study.requirements.input.max).toBeCloseTo(14.05, 9)
    expect(store.undoStep).toBeUndefined()
  }, 30_000)

  it('makes no step of a value that is already in force', () => {
    const store = opened()
    const steps = store.undoSteps.length
    store.enter('input.max', '14.0')
    expect(store.undoSteps.length).toBe(steps)
  })

  it('keeps what waits in other entries, with its problem said anew', () => {
    const store = opened()
    store.enter('input.max', '15')
    store.enter('load.max', 'plenty')
    store.enter('output.voltage', '20')
    expect(store.entries['output.voltage']!.problem).toContain('15 V')
    store.undo()
    expect(store.study.requirements.input.max).toBe(14)
    expect(store.entries['load.max']!.text).toBe('plenty')
    expect(store.entries['output.voltage']!.problem).toContain('14 V')
    // its own step takes an entry along
    store.enter('input.max', '15')
    store.enter('input.max', 'much')
    store.undo()
    expect(store.entries['input.max']).toBeUndefined()
  })

  it('brings back a replaced study', () => {
    const store = opened()
    const before = store.study
    store.loadStudy(store.examples[1]!.study)
    store.undo()
    expect(store.study).toBe(before)
  })
})

describe('a reload', () => {
  it('keeps the study', () => {
    opened().enter('input.max', '14.35')
    expect(reopen().study.requirements.input.max).toBe(14.35)
  })

  it('keeps the text of an unfinished entry, its problem, and the value in force', () => {
    opened().enter('input.max', '7 V')
    const again = reopen()
    expect(again.entries['input.max']!.text).toBe('7 V')
    expect(again.entries['input.max']!.problem).toContain('7 V')
    expect(again.study.requirements.input.max).toBe(14)
    expect(again.undoStep).toBeUndefined()
  })

  it('keeps the study of each tab, and gives a new tab the last one', () => {
    opened().enter('input.max', '15')
    const first = heldByTab()
    goToTab()
    const second = reopen()
    expect(second.study.requirements.input.max).toBe(15)
    second.enter('input.max', '17')
    goToTab(first)
    expect(reopen().study.requirements.input.max).toBe(15)
    goToTab()
    expect(reopen().study.requirements.input.max).toBe(17)
  })

  it('starts with the first example after a text that no version wrote', () => {
    for (const text of ['{', '{"study":{"format":"wattfork-study","version":1}}', 'null', '[]']) {
      sessionStorage.clear()
      localStorage.setItem('wattfork.study', text)
      const store = reopen()
      expect(store.study).toEqual(store.examples[0]!.study)
    }
  })

  it('goes on working where storage is denied, and says so', () => {
    vi.stubGlobal('localStorage', { getItem: refuse, setItem: refuse })
    const store = opened()
    expect(store.enter('input.max', '15')).toBe(true)
    expect(store.study.requirements.input.max).toBe(15)
    expect(storageDenied.value).toBe(true)
    vi.unstubAllGlobals()
    store.enter('input.max', '16')
    expect(storageDenied.value).toBe(false)
  })
})

describe('study files', () => {
  it('opens what was saved', async () => {
    const { writeStudyFile } = await import('../../../web/store/check.ts')
    const store = opened()
    const study = { ...store.study, title: 'Another bench' }
    await store.openFile(new Blob([writeStudyFile(study)]))
    expect(store.fileProblem).toBeUndefined()
    expect(store.study).toEqual(study)
    expect(store.undoStep!.label).toContain('Another bench')
  })

  it('explains a file that is no valid study, and changes nothing', async () => {
    const store = opened()
    const before = store.study
    await store.openFile(new Blob(['{"format":"wattfork-study","version":1,"requirments":{}}']))
    expect(store.fileProblem!.problems.join(' ')).toContain('requirments')
    expect(store.study).toBe(before)
  })

  it('explains what the browser cannot read, by its name, and forgets it with the next file', async () => {
    const { writeStudyFile } = await import('../../../web/store/check.ts')
    const store = opened()
    const folder = new File([], 'desk')
    folder.text = () => Promise.reject(new DOMException('not a file', 'NotFoundError'))
    await store.openFile(folder)
    expect(store.fileProblem).toMatchObject({ what: '“desk”' })
    expect(store.fileProblem!.problems[0]).toContain('folder')
    await store.openFile(new Blob([writeStudyFile(store.study)]))
    expect(store.fileProblem).toBeUndefined()
  })

  it('takes the file that was opened last, however slowly an earlier one is read', async () => {
    const { writeStudyFile } = await import('../../../web/store/check.ts')
    const store = opened()
    const slow = new File([], 'slow')
    const { promise, resolve: read } = withResolvers<string>()
    slow.text = () => promise
    const first = store.openFile(slow)
    await store.openFile(new Blob([writeStudyFile({ ...store.study, title: 'Second' })]))
    read(writeStudyFile({ ...store.study, title: 'First' }))
    await first
    expect(store.study.title).toBe('Second')
  })
})
