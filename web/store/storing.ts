/**
 * How the library gets to the shelf and hears of other tabs. An edit is first written down in plain storage (`saved.ts`),
 * so that neither a slow shelf nor a closed tab loses it.
 *
 * A record is never written over unseen: each write names the states that it follows. Where another tab stored one that is
 * not among them, that is a clash, and the library keeps both.
 */
import { readonly, shallowRef } from 'vue'
import type { Ref } from 'vue'
import { isReadable, isSame, keptOf, newId, recordOf } from './kept.ts'
import type { Kept, Unreadable } from './kept.ts'
import { forgetEdit, unstoredEdits, writeEdit, writeSaved } from './saved.ts'
import type { Saved } from './saved.ts'
import type { Shelf, StudyRecord } from './shelf.ts'

/** Why studies are not stored: the browser has no room, or denies it. */
export type Trouble = 'full' | 'denied'

/** The library, as far as storing it asks or tells. */
export interface Holder {
  find(id: string): Kept | undefined
  ids(): Iterable<string>
  /** The study that this tab shows. */
  desk(): string | undefined
  /** Another tab's state of a study that is not on the desk. */
  learn(theirs: Kept): void
  lose(id: string): void
  /** A record that this version cannot read; undefined where it is gone. */
  puzzle(id: string, record: Unreadable | undefined): void
  /** Another tab stored the study on the desk, or deleted it, and there is nothing here that is not stored. */
  tellDesk(id: string, theirs: Kept | undefined): void
  /** What the other tab stored is what is here. */
  agree(id: string): void
  /** The same as `tellDesk`, when this page has just been loaded: nobody has looked at the older state yet. */
  renewDesk(theirs: Kept): void
  /** What is here and what another tab stored under one id are different; `theirs` is undefined where it cannot be read. */
  part(id: string, theirs: Kept | undefined): void
}

export interface Storing {
  readonly trouble: Readonly<Ref<Trouble | undefined>>
  /** The study that an earlier page left on the desk. */
  resume: (saved: Saved & { id: string }) => void
  /** The desk was laid; what is on it is known already. */
  note: (kept: Kept) => void
  changed: (kept: Kept) => void
  removed: (id: string) => void
  /** The next write of this study follows what is known to be stored now. */
  follow: (id: string) => void
  /** Opens the shelf and joins it with what is in memory. Until then all is in memory. */
  start: (shelf: Shelf, tabs: string) => Promise<void>
  /** Stores what is not stored yet; resolves when that is done or has failed. */
  store: () => Promise<void>
}

/** Edits within this time are stored together, in milliseconds. A tab that is closed does not wait. */
const PAUSE = 200
/** An edit that lay unstored for so long belongs to no page that is still at it, in milliseconds. */
const ABANDONED = 5000

const troubleOf = (error: unknown): Trouble =>
  error instanceof DOMException && error.name === 'QuotaExceededError' ? 'full' : 'denied'

export function createStoring(holder: Holder): Storing {
  const trouble = shallowRef<Trouble>()
  /** Tokens of the states that the next write of a study follows. */
  const seen = new Map<string, readonly string[]>()
  /** Tokens of the records as they lie on the shelf, whoever wrote them. */
  const tokens = new Map<string, string>()
  const unstored = new Set<string>()
  const removed = new Set<string>()
  let shelf: Shelf | undefined
  let channel: BroadcastChannel | undefined
  let timer: ReturnType<typeof setTimeout> | undefined
  let storing: Promise<void> | undefined

  function savedOf(kept: Kept): Saved & { id: string } {
    const { id, texts } = kept
    return { ...kept, texts: { ...texts }, seen: seen.get(id) ?? [], isStored: !unstored.has(id) }
  }

  function note(kept: Kept): void {
    if (kept.id === holder.desk()) writeSaved(savedOf(kept))
    if (unstored.has(kept.id)) writeEdit(kept.id, savedOf(kept))
  }

  function isNow(id: string): void {
    if (!unstored.delete(id)) return
    forgetEdit(id)
    const kept = holder.find(id)
    if (kept) note(kept)
  }

  function later(): void {
    if (shelf && timer === undefined) timer = setTimeout(() => void store(), PAUSE)
  }

  const tell = (id: string) => channel?.postMessage(id)

  async function storeOne(id: string, into: Shelf): Promise<void> {
    const kept = holder.find(id)
    if (!kept) {
      unstored.delete(id)
      return
    }
    const token = newId()
    const before = seen.get(id) ?? []
    // a page that takes over from here knows both states for its own
    seen.set(id, [...before, token])
    note(kept)
    const inTheWay = await into.put(recordOf(kept, token), before).catch((error: unknown) => {
      seen.set(id, before)
      throw error
    })
    if (inTheWay) {
      const theirs = meet(inTheWay)
      seen.set(id, [inTheWay.token])
      unstored.delete(id)
      forgetEdit(id)
      holder.part(id, theirs)
      return
    }
    seen.set(id, [token])
    tokens.set(id, token)
    tell(id)
    // it may have been edited or deleted meanwhile
    if (holder.find(id) === kept) isNow(id)
  }

  async function storeAll(into: Shelf): Promise<void> {
    for (;;) {
      const [gone] = removed
      const [id] = unstored
      if (gone !== undefined) {
        // oxlint-disable-next-line no-await-in-loop -- one after another, so that none overtakes
        await into.remove(gone)
        removed.delete(gone)
        tokens.delete(gone)
        tell(gone)
      } else if (id !== undefined) {
        // oxlint-disable-next-line no-await-in-loop -- as above
        await storeOne(id, into)
      } else return
    }
  }

  function store(): Promise<void> {
    clearTimeout(timer)
    timer = undefined
    const into = shelf
    if (!into) return Promise.resolve()
    storing ??= storeAll(into)
      .then(() => {
        trouble.value = undefined
      })
      .catch((error: unknown) => {
        trouble.value = troubleOf(error)
      })
      .finally(() => {
        storing = undefined
      })
    return storing
  }

  /** The study of a record from the shelf; undefined where it cannot be read. */
  function meet(record: StudyRecord): Kept | undefined {
    tokens.set(record.id, record.token)
    const kept = keptOf(record)
    if (isReadable(kept)) return kept
    holder.puzzle(record.id, kept)
    return undefined
  }

  async function hear(id: string): Promise<void> {
    const record = await shelf?.get(id).catch(() => undefined)
    if (!record) {
      tokens.delete(id)
      holder.puzzle(id, undefined)
      if (unstored.has(id) || !holder.find(id)) return
      if (id === holder.desk()) holder.tellDesk(id, undefined)
      else holder.lose(id)
      return
    }
    if (tokens.get(id) === record.token) return
    const theirs = meet(record)
    const mine = holder.find(id)
    if (!theirs) return
    if (mine && isSame(mine, theirs)) {
      seen.set(id, [record.token])
      holder.agree(id)
    }
    // what is not stored yet meets the other state when it is
    else if (unstored.has(id)) return
    else if (id === holder.desk()) holder.tellDesk(id, theirs)
    else holder.learn(theirs)
  }

  /** Joins a study that an earlier page of this browser held with its record. */
  function join({ id, isStored, ...left }: Saved & { id: string }, record: StudyRecord | undefined): void {
    const mine: Kept = { id, study: left.study, texts: left.texts, changed: left.changed ?? 0 }
    const theirs = record && meet(record)
    const isOwn = !record || (left.seen ?? []).includes(record.token)
    if (theirs && isSame(mine, theirs)) {
      seen.set(id, [record.token])
      isNow(id)
    } else if (theirs && isStored && !isOwn) {
      seen.set(id, [record.token])
      if (id === holder.desk()) holder.renewDesk(theirs)
      else holder.learn(theirs)
    } else {
      // a record that this is no later state of will be found in the way
      seen.set(id, record && isOwn ? [record.token] : (left.seen ?? []))
      if (!holder.find(id)) holder.learn(mine)
      unstored.add(id)
    }
  }

  async function start(own: Shelf, tabs: string): Promise<void> {
    const records = await own.all().catch((error: unknown): StudyRecord[] => {
      trouble.value = troubleOf(error)
      return []
    })
    shelf = own
    const byId = new Map(records.map((record) => [record.id, record]))
    const held = [...holder.ids()].map((id) => savedOf(holder.find(id)!))
    const left = unstoredEdits().filter(({ id, changed = 0 }) => !holder.find(id) && changed < Date.now() - ABANDONED)
    const known = [...held, ...left]
    for (const record of records) {
      if (known.some(({ id }) => id === record.id)) continue
      const kept = meet(record)
      if (!kept) continue
      seen.set(record.id, [record.token])
      holder.learn(kept)
    }
    for (const saved of known) join(saved, byId.get(saved.id))
    if (typeof BroadcastChannel === 'function') {
      channel = new BroadcastChannel(tabs)
      channel.addEventListener('message', ({ data }: MessageEvent<string>) => void hear(data))
    }
    await store()
  }

  return {
    trouble: readonly(trouble),
    resume(saved) {
      seen.set(saved.id, saved.seen ?? [])
      if (!saved.isStored) unstored.add(saved.id)
    },
    note,
    changed(kept) {
      removed.delete(kept.id)
      unstored.add(kept.id)
      note(kept)
      later()
    },
    removed(id) {
      unstored.delete(id)
      forgetEdit(id)
      removed.add(id)
      later()
    },
    follow(id) {
      const token = tokens.get(id)
      if (token !== undefined) seen.set(id, [token])
    },
    start,
    store,
  }
}
