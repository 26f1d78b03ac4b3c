/** The panel of studies: its list and what can be done to each, notes, the link, and records that cannot be read. */
import { flushPromises, mount } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import StudiesPanel from '../../../../web/panels/studies/StudiesPanel.vue'
import { whenText } from '../../../../web/panels/studies/when.ts'
import { useLibraryStore } from '../../../../web/store/library.ts'
import { readShareFragment } from '../../../../web/store/shareLink.ts'
import { useStudyStore } from '../../../../web/store/study.ts'
import { memoryShelf } from '../../store/shelves.ts'

beforeEach(() => {
  localStorage.clear()
  sessionStorage.clear()
  document.body.innerHTML = ''
  setActivePinia(createPinia())
})
afterEach(() => {
  vi.unstubAllGlobals()
  vi.restoreAllMocks()
})

function panel() {
  const page = mount(StudiesPanel, { props: { isOpen: true }, attachTo: document.body })
  const titles = () => page.findAll('[data-study] .name').map((name) => name.text())
  const button = (label: string) =>
    page.findAll('button').find((each) => (each.attributes('aria-label') ?? each.text()) === label)!
  return { page, titles, button, studies: useStudyStore(), library: useLibraryStore() }
}

/** Studies with these titles; the last one is on the desk. */
function withTitles(...titles: string[]) {
  const studies = useStudyStore()
  for (const [k, title] of titles.entries()) {
    if (k > 0) studies.duplicate(studies.id)
    studies.rename(title)
  }
  return panel()
}

describe('the list of studies', () => {
  it('names every study and marks the one that is open', () => {
    const { page, titles } = withTitles('Barn rail', 'Shed rail')
    expect(titles().toSorted()).toEqual(['Barn rail', 'Shed rail'])
    expect(page.findAll('[aria-current=true]').map((each) => each.get('.name').text())).toEqual(['Shed rail'])
    expect(page.get('[aria-current=true] .when').text()).toBe('open')
  })

  it('opens a study and is done', async () => {
    const { page, studies } = withTitles('Barn rail', 'Shed rail')
    const row = page.findAll('[data-study]').find((each) => each.text().includes('Barn rail'))!
    await row.get('.title').trigger('click')
    expect(studies.study.title).toBe('Barn rail')
    expect(page.emitted('done')).toHaveLength(1)
  })

  it('is searched by title and notes once it is long, and says where nothing is found', async () => {
    const names = Array.from({ length: 8 }, (_, k) => `Rail ${k}`)
    const { page, titles, studies } = withTitles(...names)
    expect(page.find('input[type=search]').exists()).toBe(false)
    studies.duplicate(studies.id)
    studies.rename('Ninth')
    studies.edit('notes', 'Fed from the BARN.')
    await flushPromises()
    const search = page.get('input[type=search]')
    await search.setValue(' barn ')
    expect(titles()).toEqual(['Ninth'])
    await search.setValue('rail 3')
    expect(titles()).toEqual(['Rail 3'])
    await search.setValue('nowhere')
    expect(titles()).toEqual([])
    expect(page.text()).toContain('No title or note has these words.')
  })

  it('renames by Enter and by leaving the field, and not by Escape', async () => {
    const { page, titles, button } = withTitles('Barn rail', 'Shed rail')
    const type = async (text: string, key?: string) => {
      await button('Rename: Barn rail').trigger('click')
      const field = page.get<HTMLInputElement>('[data-study] input')
      expect(field.element.value).toBe('Barn rail')
      await field.setValue(text)
      await field.trigger(key ? 'keydown' : 'blur', key ? { key } : {})
      await flushPromises()
    }
    await type('Never', 'Escape')
    expect(titles()).toContain('Barn rail')
    expect(document.activeElement?.getAttribute('aria-label')).toBe('Rename: Barn rail')
    await type('Byre rail', 'Enter')
    expect(titles()).toContain('Byre rail')
    useStudyStore().undo()
    await flushPromises()
    await type('Stable rail')
    expect(titles().toSorted()).toEqual(['Shed rail', 'Stable rail'])
  })

  it('duplicates any study and opens the copy', async () => {
    const { titles, button, studies } = withTitles('Barn rail', 'Shed rail')
    await button('Duplicate: Barn rail').trigger('click')
    expect(studies.study.title).toBe('Barn rail, copy')
    expect(titles().toSorted()).toEqual(['Barn rail', 'Barn rail, copy', 'Shed rail'])
  })

  it('deletes a study, keeps the focus in the list, and has it back after an undo', async () => {
    const { page, titles, button, studies } = withTitles('Barn rail', 'Shed rail')
    await button('Delete: Barn rail').trigger('click')
    await flushPromises()
    expect(titles()).toEqual(['Shed rail'])
    expect(page.get('.list').element.contains(document.activeElement)).toBe(true)
    studies.undo()
    await flushPromises()
    expect(titles().toSorted()).toEqual(['Barn rail', 'Shed rail'])
  })

  it('shows what cannot be read, why, and hands it out as it is', async () => {
    const file = { format: 'wattfork-study', version: 2, title: 'From tomorrow' }
    const { page, button, library } = panel()
    await library.start(memoryShelf({ id: 'later', token: 't', changed: 1, file, texts: {} }), 'panel')
    expect(page.text()).toContain('“From tomorrow” is kept but cannot be read:')
    const made = vi.spyOn(URL, 'createObjectURL')
    vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(() => {})
    await button('Save what is there').trigger('click')
    expect(JSON.parse(await (made.mock.calls[0]![0] as Blob).text())).toEqual(file)
  })
})

describe('the notes', () => {
  it('count when the field is left, as one step, and go with their study', async () => {
    const { page, studies } = withTitles('Barn rail', 'Shed rail')
    const field = page.get<HTMLTextAreaElement>('textarea')
    const steps = studies.undoSteps.length
    await field.trigger('focus')
    await field.setValue('Ask about the cable.')
    expect(studies.study.notes).toBeUndefined()
    await field.trigger('blur')
    expect(studies.study.notes).toBe('Ask about the cable.')
    expect(studies.undoSteps.length).toBe(steps + 1)
    studies.openKept(useLibraryStore().list.find(({ study }) => study.title === 'Barn rail')!.id)
    await flushPromises()
    expect(field.element.value).toBe('')
    studies.undo()
    await flushPromises()
    expect(field.element.value).toBe('Ask about the cable.')
  })

  it('are taken when the page goes in the middle of typing', async () => {
    const { page, studies } = panel()
    await page.get('textarea').setValue('Half a sen')
    window.dispatchEvent(new Event('pagehide'))
    expect(studies.study.notes).toBe('Half a sen')
  })
})

describe('the share link', () => {
  it('is shown to be copied by hand where the clipboard is denied, and goes when the study changes', async () => {
    vi.stubGlobal('navigator', {
      clipboard: { writeText: () => Promise.reject(new DOMException('denied', 'NotAllowedError')) },
    })
    const { page, button, studies } = withTitles('Barn rail')
    await button('Copy a link').trigger('click')
    await vi.waitFor(() => expect(page.find('input.address').exists()).toBe(true))
    const address = page.get<HTMLInputElement>('input.address').element.value
    expect((await readShareFragment(new URL(address).hash)).study).toEqual(studies.study)
    expect(page.text()).toContain('The browser does not let the page copy; copy it from here.')
    studies.edit('input.max', 16)
    await flushPromises()
    expect(page.find('input.address').exists()).toBe(false)
  })

  it('is copied where that is allowed, and its length told', async () => {
    const copied: string[] = []
    vi.stubGlobal('navigator', {
      clipboard: { writeText: (text: string) => Promise.resolve(void copied.push(text)) },
    })
    const { page, button } = withTitles('Barn rail')
    await button('Copy a link').trigger('click')
    await vi.waitFor(() => expect(page.text()).toContain('Copied:'))
    expect(page.text()).toContain(`Copied: ${copied[0]!.length} characters`)
    expect(page.find('input.address').exists()).toBe(false)
  })
})

describe('the age of a study', () => {
  const now = Date.UTC(2026, 4, 12, 12)
  it.each([
    [59_000, 'just now'],
    [60_000, '1 min ago'],
    [3_599_000, '59 min ago'],
    [3_600_000, '1 h ago'],
    [86_399_000, '23 h ago'],
    [3 * 86_400_000, '9 May 2026'],
    // a clock that was set back
    [-5000, 'just now'],
  ])('of %d ms reads %s', (age, text) => expect(whenText(now - age, now, 'en-GB')).toBe(text))
})
