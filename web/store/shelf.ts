/** Where this browser keeps its studies: one IndexedDB store. Several pages of this program may stand before it at once. */
import { openDB } from 'idb'
import type { DBSchema, IDBPDatabase } from 'idb'

/** A study as it is stored. */
export interface StudyRecord {
  id: string
  /** A new one with every write: whoever knows another one has not seen this content. */
  token: string
  /** When its content last changed, in milliseconds since 1970. */
  changed: number
  /** What its study file would hold. Written by any version of this program, so it is read like a file. */
  file: unknown
  /** Texts of entries that are not in force, by path. */
  texts: Record<string, string>
}

/** Every method rejects where the browser denies storage or has no room. */
export interface Shelf {
  all(): Promise<StudyRecord[]>
  get(id: string): Promise<StudyRecord | undefined>
  /**
   * Stores the record, unless one lies there whose token is not in `seen` and whose content differs: then nothing is
   * written, and that record is returned.
   */
  put(record: StudyRecord, seen: readonly string[]): Promise<StudyRecord | undefined>
  remove(id: string): Promise<void>
}

/** Whether two records hold the same study and the same unfinished entries. */
export function isSameContent(a: Pick<StudyRecord, 'file' | 'texts'>, b: Pick<StudyRecord, 'file' | 'texts'>): boolean {
  return JSON.stringify([a.file, a.texts]) === JSON.stringify([b.file, b.texts])
}

const DATABASE = 'wattfork'
/** Of the database, not of the study file: a change of the stores below raises it and adds a step to `upgrade`. */
const VERSION = 1

interface Schema extends DBSchema {
  studies: { key: string; value: StudyRecord }
}

/** The browser's own shelf. It is opened at the first use, and again after the browser closed it. */
export function browserShelf(): Shelf {
  let opening: Promise<IDBPDatabase<Schema>> | undefined
  const forget = () => {
    opening = undefined
  }

  function open(): Promise<IDBPDatabase<Schema>> {
    opening ??= openDB<Schema>(DATABASE, VERSION, {
      upgrade(db) {
        db.createObjectStore('studies', { keyPath: 'id' })
      },
      // a page of a later version waits for this one to let go
      blocking(_current, _blocked, event) {
        ;(event.target as IDBDatabase).close()
        forget()
      },
      terminated: forget,
    }).catch((error: unknown) => {
      forget()
      throw error
    })
    return opening
  }

  return {
    async all() {
      return (await open()).getAll('studies')
    },
    async get(id) {
      return (await open()).get('studies', id)
    },
    async put(record, seen) {
      // one transaction: no other page writes between the look and the write
      const change = (await open()).transaction('studies', 'readwrite')
      const there = await change.store.get(record.id)
      const isInTheWay = there !== undefined && !seen.includes(there.token) && !isSameContent(there, record)
      if (!isInTheWay) await change.store.put(record)
      await change.done
      return isInTheWay ? there : undefined
    },
    async remove(id) {
      await (await open()).delete('studies', id)
    },
  }
}
