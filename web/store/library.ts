/** Every study of this browser. What is in memory is in force at once; the shelf follows. */
import { computed, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { Study } from '../../engine/requirements/study.ts'
import { copyTitle, isSame, newId } from './kept.ts'
import type { Kept, Unreadable } from './kept.ts'
import type { Saved } from './saved.ts'
import { browserShelf } from './shelf.ts'
import type { Shelf } from './shelf.ts'
import { createStoring } from './storing.ts'

/** What another tab did to the study on the desk. */
export interface Elsewhere {
  readonly id: string
  /** As the other tab left it; undefined where it deleted it. */
  readonly theirs: Kept | undefined
}

/** Two tabs changed one study: the other tab's keeps the name, this tab's goes on as a copy. */
export interface Parting {
  readonly theirs: Kept | undefined
  readonly mine: Kept
}

/** What a change of the list takes away and brings; an undo swaps the two. */
export interface ListChange {
  readonly before?: Kept
  readonly after?: Kept
}

/** The desk of this tab: what to do where the library knows better. */
export interface Desk {
  /** It goes on under another id, as a copy. */
  moved(from: string, to: Kept): void
  /** Another tab has stored a later state since this one was left. */
  renewed(by: Kept): void
}

export const useLibraryStore = defineStore('library', () => {
  const entries = new Map<string, Kept>()
  /** Raised with every change of `entries`. */
  const state = shallowRef(0)
  /** All studies, the last changed one first. */
  const list = computed((): readonly Kept[] =>
    state.value < 0 ? [] : [...entries.values()].toSorted((a, b) => b.changed - a.changed),
  )
  const unreadable = shallowRef<readonly Unreadable[]>([])
  const elsewhere = shallowRef<Elsewhere>()
  const parting = shallowRef<Parting>()
  let desk: string | undefined
  let owner: Desk = { moved: () => {}, renewed: () => {} }
  const titles = computed(() => list.value.map(({ study }) => study.title))

  function show(): void {
    state.value++
  }

  /** Into the list, without a word to the shelf. */
  function learn(kept: Kept): void {
    entries.set(kept.id, kept)
    show()
  }

  function lose(id: string): void {
    entries.delete(id)
    show()
  }

  /** A new study with this content. */
  const made = (content: Pick<Kept, 'study' | 'texts'>): Kept => ({ ...content, id: newId(), changed: Date.now() })

  /** Keeps what is in memory under `id` as a copy, beside what another tab stored there. */
  function part(id: string, theirs: Kept | undefined): void {
    const mine = entries.get(id)
    if (!mine) return
    const copy = made({
      study: { ...mine.study, title: copyTitle(mine.study.title, titles.value) },
      texts: mine.texts,
    })
    if (theirs) learn(theirs)
    else lose(id)
    if (id === desk) {
      desk = copy.id
      elsewhere.value = undefined
      parting.value = { theirs, mine: copy }
    }
    put(copy)
    if (copy.id === desk) owner.moved(id, copy)
  }

  const storing = createStoring({
    find: (id) => entries.get(id),
    ids: () => entries.keys(),
    desk: () => desk,
    learn,
    lose,
    puzzle(id, record) {
      const others = unreadable.value.filter((other) => other.id !== id)
      if (record || others.length < unreadable.value.length) unreadable.value = record ? [...others, record] : others
    },
    tellDesk(id, theirs) {
      elsewhere.value = { id, theirs }
    },
    agree(id) {
      if (elsewhere.value?.id === id) elsewhere.value = undefined
    },
    renewDesk(theirs) {
      learn(theirs)
      owner.renewed(theirs)
    },
    part,
  })

  function put(kept: Kept): void {
    learn(kept)
    storing.changed(kept)
  }

  /** What the desk holds now. It is stored where it differs from what is known of that study. */
  function keep(content: Pick<Kept, 'id' | 'study' | 'texts'>): void {
    desk = content.id
    const kept = { ...content, changed: Date.now() }
    const known = entries.get(desk)
    if (known && isSame(known, kept)) storing.note(known)
    else put(kept)
    if (elsewhere.value && elsewhere.value.id !== desk) elsewhere.value = undefined
  }

  /** A change of the list; backwards for an undo. */
  function change({ before, after }: ListChange, isBack = false): void {
    const [from, to] = isBack ? [after, before] : [before, after]
    if (to) put(to)
    else if (from) {
      lose(from.id)
      storing.removed(from.id)
    }
  }

  /** A study that holds just this, without unfinished entries. */
  function sameAs(study: Study): Kept | undefined {
    return list.value.find((kept) => isSame(kept, { ...kept, study, texts: {} }))
  }

  /** The study as it is known now, to be put on the desk: what is done to it there follows this state. */
  function take(id: string): Kept | undefined {
    storing.follow(id)
    return entries.get(id)
  }

  /** Takes over what another tab made of the study on the desk. */
  function takeTheirs(): Kept | undefined {
    const { id, theirs } = elsewhere.value ?? {}
    elsewhere.value = undefined
    if (!theirs || !id) return undefined
    storing.follow(id)
    learn(theirs)
    return theirs
  }

  /** Keeps what is on the desk: as a copy beside what another tab made of it, or again where another tab deleted it. */
  function keepMine(): void {
    const { id, theirs } = elsewhere.value ?? {}
    elsewhere.value = undefined
    const mine = id === undefined ? undefined : entries.get(id)
    if (!mine) return
    if (theirs) part(mine.id, theirs)
    else put(mine)
  }

  /** Lays the desk: what an earlier page left on it. */
  function attach(saved: (Saved & { id: string }) | undefined, own: Desk): void {
    owner = own
    if (!saved) return
    const { id, study, texts, changed = Date.now() } = saved
    desk = id
    storing.resume(saved)
    learn({ id, study, texts, changed })
  }

  return {
    list,
    unreadable,
    trouble: storing.trouble,
    titles,
    elsewhere,
    parting,
    attach,
    /** Opens the shelf. Called once, when the page starts; tests pass one of their own. */
    start: (shelf: Shelf = browserShelf(), tabs = 'wattfork.studies') => storing.start(shelf, tabs),
    store: storing.store,
    find: (id: string) => entries.get(id),
    take,
    takeTheirs,
    keep,
    keepMine,
    made,
    change,
    sameAs,
  }
})
