/** Every notice about keeping studies: what it says, and what its buttons do. */
import { flushPromises, mount } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import StudyNotice from '../../../../web/panels/studies/StudyNotice.vue'
import { useLibraryStore } from '../../../../web/store/library.ts'
import { writeText } from '../../../../web/store/persistence.ts'
import { useStudyStore } from '../../../../web/store/study.ts'
import { memoryShelf } from '../../store/shelves.ts'

let channel = 0
let tabs = ''

beforeEach(() => {
  localStorage.clear()
  sessionStorage.clear()
  document.body.innerHTML = ''
  tabs = `notice ${++channel}`
})
afterEach(() => {
  vi.unstubAllGlobals()
  writeText('allowed again', '')
})

async function open(shelf = memoryShelf()) {
  setActivePinia(createPinia())
  const [studies, library] = [useStudyStore(), useLibraryStore()]
  await library.start(shelf, tabs)
  const page = mount(StudyNotice, { attachTo: document.body })
  const said = () => page.findAll('[role=alert]').map((each) => each.text().replace(/\s+/gu, ' '))
  const press = (name: string) =>
    page
      .findAll('button')
      .find((each) => each.text() === name)!
      .trigger('click')
  return { page, studies, library, shelf, said, press }
}

/** Two tabs at one study. */
async function both() {
  const one = await open()
  one.studies.rename('Shared rail')
  await one.library.store()
  const two = await open(one.shelf)
  expect(two.studies.id).toBe(one.studies.id)
  return { one, two }
}

const heard = (said: () => string[], words: string) => vi.waitFor(() => expect(said().join(' ')).toContain(words))

const refuse = () => {
  throw new DOMException('denied', 'SecurityError')
}

describe('a browser that does not store', () => {
  it('says nothing while all is well', async () => {
    expect((await open()).said()).toEqual([])
  })

  it('for want of room offers another try, and is quiet once there is room', async () => {
    const { studies, library, shelf, said, press } = await open()
    shelf.failure = new DOMException('no room', 'QuotaExceededError')
    studies.edit('input.max', 16)
    await library.store()
    await flushPromises()
    expect(said()).toEqual([expect.stringContaining('no room left to store studies')])
    shelf.failure = undefined
    await press('Try again')
    await vi.waitFor(() => expect(said()).toEqual([]))
    expect(shelf.records.size).toBe(1)
  })

  it('by denying its database alone says what lasts, and can be closed', async () => {
    const shelf = memoryShelf()
    shelf.failure = new DOMException('denied', 'SecurityError')
    const { said, press } = await open(shelf)
    expect(said()).toEqual([expect.stringContaining('does not let the page keep a list of studies')])
    await press('Close')
    expect(said()).toEqual([])
  })

  it('by denying everything, or plain storage alone, says each', async () => {
    vi.stubGlobal('localStorage', { getItem: refuse, setItem: refuse })
    const shelf = memoryShelf()
    shelf.failure = new DOMException('denied', 'SecurityError')
    expect((await open(shelf)).said()).toEqual([expect.stringContaining('does not let the page store anything')])
    expect((await open()).said()).toEqual([expect.stringContaining('refuses part of its storage')])
  })
})

describe('what another tab did', () => {
  it('to the study on screen is shown on request', async () => {
    const { one, two } = await both()
    one.studies.edit('input.max', 16)
    await one.library.store()
    await heard(two.said, '“Shared rail” was changed in another tab.')
    await two.press('Show the change')
    expect(two.studies.study.requirements.input.max).toBe(16)
    expect(two.said()).toEqual([])
  })

  it('is kept beside what is here', async () => {
    const { one, two } = await both()
    one.studies.edit('input.max', 16)
    await one.library.store()
    await heard(two.said, 'was changed in another tab')
    await two.press('Keep both')
    expect(two.studies.study.title).toBe('Shared rail, copy')
    expect(two.library.titles.toSorted()).toEqual(['Shared rail', 'Shared rail, copy'])
  })

  it('by deleting it leaves it here, to be kept or not', async () => {
    const { one, two } = await both()
    const { id } = two.studies
    one.studies.remove(id)
    await one.library.store()
    await heard(two.said, '“Shared rail” was deleted in another tab.')
    await two.press('Keep it')
    await two.library.store()
    expect(one.shelf.records.has(id)).toBe(true)
    expect(two.said()).toEqual([])
  })

  it('while this one was edited, too, parts them, and the other one can be opened', async () => {
    const { one, two } = await both()
    one.studies.edit('input.max', 16)
    two.studies.edit('input.max', 17)
    await one.library.store()
    await two.library.store()
    await heard(two.said, 'yours goes on here as “Shared rail, copy”')
    await two.press('Open the other one')
    expect(two.studies.study.requirements.input.max).toBe(16)
    expect(two.said()).toEqual([])
  })

  it.each([
    ['Open it', 'open'],
    ['Delete it too', 'gone'],
    ['Close', 'kept'],
  ])('to a study that was deleted here brings it back; %s leaves it %s', async (name, left) => {
    const { one, two } = await both()
    const { id } = one.studies
    one.studies.loadStudy(one.studies.examples[1]!.study)
    await one.library.store()
    two.studies.edit('input.max', 16)
    await two.library.store()
    one.studies.remove(id)
    await one.library.store()
    await heard(one.said, '“Shared rail” stays in the list.')
    await one.press(name)
    await one.library.store()
    expect(one.said()).toEqual([])
    expect(one.studies.id === id).toBe(left === 'open')
    expect(one.shelf.records.has(id)).toBe(left !== 'gone')
  })
})
