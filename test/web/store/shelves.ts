/** A shelf in memory for the tests of the library: what the browser's own does, and its failures at will. */
import { isSameContent } from '../../../web/store/shelf.ts'
import type { Shelf, StudyRecord } from '../../../web/store/shelf.ts'

export interface MemoryShelf extends Shelf {
  records: Map<string, StudyRecord>
  /** Set, every access fails with it. */
  failure: Error | undefined
}

export function memoryShelf(...content: StudyRecord[]): MemoryShelf {
  const records = new Map(content.map((record) => [record.id, record]))
  const turn = async () => {
    await Promise.resolve()
    if (shelf.failure) throw shelf.failure
  }
  const shelf: MemoryShelf = {
    records,
    failure: undefined,
    async all() {
      await turn()
      return [...records.values()]
    },
    async get(id) {
      await turn()
      return records.get(id)
    },
    async put(record, seen) {
      await turn()
      const there = records.get(record.id)
      if (there && !seen.includes(there.token) && !isSameContent(there, record)) return there
      records.set(record.id, structuredClone(record))
      return undefined
    },
    async remove(id) {
      await turn()
      records.delete(id)
    },
  }
  return shelf
}
