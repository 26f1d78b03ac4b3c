import { createPinia, setActivePinia } from 'pinia'
import { beforeEach, describe, expect, it, vi } from 'vitest'
import { writeStudyFile } from '../../../web/store/check.ts'
import { copyTitle } from '../../../web/store/kept.ts'
import { useLibraryStore } from '../../../web/store/library.ts'
import type { StudyRecord } from '../../../web/store/shelf.ts'
import { useStudyStore } from '../../../web/store/study.ts'
import { memoryShelf } from './shelves.ts'
import type { MemoryShelf } from './shelves.ts'

interface Tab {
  studies: ReturnType<typeof useStudyStore>
  library: ReturnType<typeof useLibraryStore>
  /** What the tab holds for itself, for a reload. */
  session: Record<string, string>
}

let channel = 0
let tabs = ''

const session = () =>
  Object.fromEntries(
    Array.from({ length: sessionStorage.length }, (_, i) => sessionStorage.key(i)!).map((key) => [
      key,
      sessionStorage.getItem(key)!,
    ]),
  )

/** A page of this browser. `held`: what its tab held before, as a reload or a tab that was copied finds it. */
async function open(shelf: MemoryShelf, held: Record<string, string> = {}): Promise<Tab> {
  sessionStorage.clear()
  for (const [key, text] of Object.entries(held)) sessionStorage.setItem(key, text)
  setActivePinia(createPinia())
  const studies = useStudyStore()
  const library = useLibraryStore()
  await library.start(shelf, tabs)
  return { studies, library, session: session() }
}

/** The title and the highest input of each stored study. */
const stored = (shelf: MemoryShelf) =>
  [...shelf.records.values()]
    .map(({ file }) => file as { title: string; requirements: { input: { max: number } } })
    .map(({ title, requirements }) => `${title} ${requirements.input.max}`)
    .toSorted()

const heard = (said: () => unknown) => vi.waitFor(() => expect(said()).toBeTruthy())

beforeEach(() => {
  localStorage.clear()
  sessionStorage.clear()
  tabs = `tabs ${++channel}`
})

describe('what is stored', () => {
  it('is every edit, of every study', async () => {
    const shelf = memoryShelf()
    const { studies, library } = await open(shelf)
    studies.rename('Bench rail')
    studies.edit('input.max', 16)
    studies.duplicate(studies.id)
    studies.edit('input.max', 17)
    await library.store()
    expect(stored(shelf)).toEqual(['Bench rail 16', 'Bench rail, copy 17'])
    const again = await open(shelf)
    expect(again.library.titles.toSorted()).toEqual(['Bench rail', 'Bench rail, copy'])
  })

  it('is what lay in plain storage before there was a library, with its unfinished entries', async () => {
    const { studies } = await open(memoryShelf())
    const study = JSON.parse(writeStudyFile({ ...studies.study, title: 'From before' })) as unknown
    localStorage.clear()
    localStorage.setItem('wattfork.study', JSON.stringify({ study, texts: { 'input.max': 'much' } }))
    const shelf = memoryShelf()
    const later = await open(shelf)
    expect(later.studies.study.title).toBe('From before')
    expect(later.studies.entries['input.max']!.text).toBe('much')
    expect([...shelf.records.values()].map(({ texts }) => texts)).toEqual([{ 'input.max': 'much' }])
    expect(stored(shelf)[0]).toContain('From before')
  })

  it('keeps the unfinished entries of a study that is left, and brings them back with it', async () => {
    const { studies } = await open(memoryShelf())
    const first = studies.id
    studies.enter('input.max', 'much')
    studies.loadStudy(studies.examples[1]!.study)
    expect(studies.entries).toEqual({})
    studies.openKept(first)
    expect(studies.entries['input.max']!.text).toBe('much')
    studies.undo()
    expect(studies.entries).toEqual({})
  })

  it('is not doubled by opening the same example or file again', async () => {
    const { studies, library } = await open(memoryShelf())
    studies.loadStudy(studies.examples[1]!.study)
    studies.loadStudy(studies.examples[0]!.study)
    studies.loadStudy(studies.examples[1]!.study)
    expect(library.list.length).toBe(2)
  })

  it('leaves alone what a later version wrote, and says why it is not opened', async () => {
    const record: StudyRecord = {
      id: 'later',
      token: 't',
      changed: 1,
      file: { format: 'wattfork-study', version: 2, title: 'From tomorrow' },
      texts: {},
    }
    const shelf = memoryShelf(record)
    const { library } = await open(shelf)
    expect(library.unreadable).toMatchObject([{ title: 'From tomorrow' }])
    expect(library.unreadable[0]!.problems.join(' ')).toContain('newer than 1')
    expect(shelf.records.get('later')).toEqual(record)
  })
})

describe('the list', () => {
  it('takes back a deleted study, on the desk or not', async () => {
    const shelf = memoryShelf()
    const { studies, library } = await open(shelf)
    studies.rename('First')
    const first = studies.id
    studies.duplicate(first)
    studies.rename('Second')
    studies.remove(first)
    expect(library.titles).toEqual(['Second'])
    await library.store()
    expect(shelf.records.has(first)).toBe(false)
    studies.undo()
    expect(library.titles.toSorted()).toEqual(['First', 'Second'])
    studies.remove(studies.id)
    expect(studies.study.title).toBe('First')
    studies.undo()
    expect(studies.study.title).toBe('Second')
    studies.redo()
    expect(library.titles).toEqual(['First'])
    await library.store()
    expect(stored(shelf).map((line) => line.split(' ')[0])).toEqual(['First'])
  })

  it('has an example on the desk when the last study is deleted', async () => {
    const { studies, library } = await open(memoryShelf())
    studies.rename('Only one')
    studies.remove(studies.id)
    expect(studies.study).toEqual(studies.examples[0]!.study)
    expect(library.titles).toEqual([studies.study.title])
    studies.undo()
    expect(studies.study.title).toBe('Only one')
    // what took its place was never touched
    expect(library.titles).toContain('Only one')
  })

  it('renames a study that is not on the desk, and back', async () => {
    const { studies, library } = await open(memoryShelf())
    const first = studies.id
    studies.duplicate(first)
    studies.renameKept(first, 'Shed rail')
    expect(library.find(first)!.study.title).toBe('Shed rail')
    studies.undo()
    expect(library.find(first)!.study.title).toBe(studies.examples[0]!.study.title)
  })

  it('undoes and redoes through every study of the session', async () => {
    const { studies, library } = await open(memoryShelf())
    const start = studies.study
    studies.edit('input.max', 16)
    studies.duplicate(studies.id)
    studies.edit('input.max', 17)
    studies.edit('notes', 'Ask about the cable.')
    const end = studies.study
    while (studies.undoStep) studies.undo()
    expect(studies.study).toBe(start)
    expect(library.list.length).toBe(1)
    while (studies.redoStep) studies.redo()
    expect(studies.study).toBe(end)
    expect(library.list.length).toBe(2)
  })

  it('gives every copy a title of its own, no longer than a title may be', () => {
    expect(copyTitle('Rail', [])).toBe('Rail, copy')
    expect(copyTitle('Rail, copy', ['Rail', 'Rail, copy'])).toBe('Rail, copy 2')
    expect(copyTitle('x'.repeat(200), ['x'.repeat(200)])).toHaveLength(200)
  })
})

describe('two tabs at one study', () => {
  async function both() {
    const shelf = memoryShelf()
    const one = await open(shelf)
    one.studies.rename('Shared rail')
    await one.library.store()
    const two = await open(shelf, one.session)
    expect(two.studies.id).toBe(one.studies.id)
    return { shelf, one, two }
  }

  it('the second is told of a change, and shows it on request as a step that can be undone', async () => {
    const { one, two } = await both()
    one.studies.edit('input.max', 16)
    await one.library.store()
    await heard(() => two.library.elsewhere)
    expect(two.studies.study.requirements.input.max).not.toBe(16)
    two.studies.takeTheirs()
    expect(two.studies.study.requirements.input.max).toBe(16)
    two.studies.undo()
    expect(two.studies.study.requirements.input.max).not.toBe(16)
  })

  it('the second can keep its own state beside it', async () => {
    const { shelf, one, two } = await both()
    one.studies.edit('input.max', 16)
    await one.library.store()
    await heard(() => two.library.elsewhere)
    two.library.keepMine()
    await two.library.store()
    expect(two.studies.study.title).toBe('Shared rail, copy')
    expect(stored(shelf)).toEqual(['Shared rail 16', 'Shared rail, copy 14.4'])
  })

  it('nothing is overwritten where both edit: the later one goes on as a copy, and is told', async () => {
    const { shelf, one, two } = await both()
    one.studies.edit('input.max', 16)
    two.studies.edit('input.max', 17)
    await one.library.store()
    await two.library.store()
    await two.library.store()
    expect(stored(shelf)).toEqual(['Shared rail 16', 'Shared rail, copy 17'])
    expect(two.studies.study.title).toBe('Shared rail, copy')
    expect(two.library.parting?.theirs?.study.title).toBe('Shared rail')
    expect(one.studies.study.title).toBe('Shared rail')
    // the way back leads through the copy alone
    while (two.studies.undoStep) two.studies.undo()
    await two.library.store()
    expect(stored(shelf)).toEqual(['Shared rail 14.4', 'Shared rail 16'])
  })

  it('an undo back to a study that another tab changed meanwhile does not overwrite it', async () => {
    const { shelf, one, two } = await both()
    two.studies.loadStudy(two.studies.examples[1]!.study)
    await two.library.store()
    one.studies.edit('input.max', 16)
    await one.library.store()
    await heard(() => two.library.list.some(({ study }) => study.requirements.input.max === 16))
    two.studies.undo()
    await two.library.store()
    await two.library.store()
    expect(stored(shelf)).toContain('Shared rail 16')
    expect(stored(shelf)).toContain('Shared rail, copy 14.4')
  })

  it('the second is told of a deletion, and still has the study', async () => {
    const { shelf, one, two } = await both()
    one.studies.remove(one.studies.id)
    await one.library.store()
    await heard(() => two.library.elsewhere)
    expect(two.library.elsewhere!.theirs).toBeUndefined()
    two.library.keepMine()
    await two.library.store()
    expect(stored(shelf)).toContain('Shared rail 14.4')
  })

  it('a reload shows what the other tab stored since, where it had nothing of its own', async () => {
    const { shelf, one, two } = await both()
    one.studies.edit('input.max', 16)
    await one.library.store()
    const again = await open(shelf, two.session)
    expect(again.studies.study.requirements.input.max).toBe(16)
    expect(again.studies.undoStep).toBeUndefined()
  })

  it('a change that was taken back parts nobody', async () => {
    const { shelf, one, two } = await both()
    one.studies.edit('input.max', 16)
    await one.library.store()
    await heard(() => two.library.elsewhere)
    one.studies.undo()
    await one.library.store()
    await heard(() => !two.library.elsewhere)
    two.studies.edit('output.voltage', 6)
    await two.library.store()
    expect(two.library.parting).toBeUndefined()
    expect(shelf.records.size).toBe(1)
  })
})

describe('a tab that closes before an edit is stored', () => {
  it('finds it on the desk of the next visit, and stores it', async () => {
    const shelf = memoryShelf()
    const one = await open(shelf)
    await one.library.store()
    one.studies.edit('input.max', 16)
    one.studies.enter('load.max', 'plen')
    const next = await open(shelf)
    expect(next.studies.study.requirements.input.max).toBe(16)
    expect(next.studies.entries['load.max']!.text).toBe('plen')
    await next.library.store()
    expect(stored(shelf)[0]).toContain('16')
    expect(next.library.list.length).toBe(1)
  })

  it('finds it in the list where another tab was the last one open', async () => {
    vi.useFakeTimers({ toFake: ['Date'] })
    const shelf = memoryShelf()
    const one = await open(shelf)
    one.studies.rename('Left in the middle')
    await one.library.store()
    const two = await open(shelf, {})
    two.studies.loadStudy(two.studies.examples[1]!.study)
    await two.library.store()
    one.studies.edit('input.max', 16)
    two.studies.edit('input.max', 20)
    await two.library.store()
    vi.setSystemTime(Date.now() + 10_000)
    await open(shelf)
    vi.useRealTimers()
    expect(stored(shelf)).toContain('Left in the middle 16')
  })

  it('keeps both where another tab stored something else meanwhile', async () => {
    const shelf = memoryShelf()
    const one = await open(shelf)
    one.studies.rename('Shared rail')
    await one.library.store()
    const two = await open(shelf, one.session)
    two.studies.edit('input.max', 17)
    one.studies.edit('input.max', 16)
    const left = session()
    await two.library.store()
    const again = await open(shelf, left)
    await again.library.store()
    expect(stored(shelf)).toEqual(['Shared rail 17', 'Shared rail, copy 16'])
  })
})

describe('a browser that does not store', () => {
  it('for want of room is told apart, and work goes on', async () => {
    const shelf = memoryShelf()
    const { studies, library } = await open(shelf)
    shelf.failure = new DOMException('no room', 'QuotaExceededError')
    studies.edit('input.max', 16)
    await library.store()
    expect(library.trouble).toBe('full')
    studies.duplicate(studies.id)
    expect(library.list.length).toBe(2)
    shelf.failure = undefined
    await library.store()
    expect(library.trouble).toBeUndefined()
    expect(shelf.records.size).toBe(2)
  })

  it('because it denies it is told so, and everything works in memory', async () => {
    const shelf = memoryShelf()
    shelf.failure = new DOMException('denied', 'SecurityError')
    const { studies, library } = await open(shelf)
    expect(library.trouble).toBe('denied')
    studies.rename('In memory')
    studies.duplicate(studies.id)
    studies.remove(studies.id)
    studies.undo()
    expect(library.titles.toSorted()).toEqual(['In memory', 'In memory, copy'])
    await library.store()
    expect(library.trouble).toBe('denied')
  })
})
