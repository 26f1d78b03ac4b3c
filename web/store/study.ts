/**
 * The requirements: the last valid study, entries that are not valid yet, and the way back.
 *
 * `study` is the only thing that the engine is asked about, and it is always valid: an entry that is out of range or that
 * contradicts another one waits in `entries` with its text and its problem, and is tried again whenever another entry changes.
 */
import { computed, ref, shallowReactive, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { Study } from '../../engine/requirements/study.ts'
import { EXAMPLES } from '../examples/index.ts'
import type { Example } from '../examples/index.ts'
import { checkEdit, readPath, withPath } from './check.ts'
import type { FieldValue } from './check.ts'
import { describeChange } from './changes.ts'
import { readSaved, writeSaved } from './saved.ts'

/** An entry whose text is not in force. A path without one holds the value in `study`. */
export interface FieldState {
  /** What was typed, kept as typed, also over a reload. */
  text: string
  /** The value that was read from the text; undefined where it could not be read. */
  value: FieldValue
  /** One sentence: field, value and allowed range. */
  problem: string
  /** A value that would be accepted, offered as a button. */
  fix?: { label: string; value: number }
}

export interface Step {
  /** What the step changed, e.g. "Highest input 12.0 → 12.4 V". */
  label: string
  before: Study
  after: Study
}

export const UNDO_STEPS = 50

export const useStudyStore = defineStore('study', () => {
  const saved = readSaved()
  /** The valid study in force; replaced whole, never mutated. */
  const study = shallowRef<Study>(saved?.study ?? EXAMPLES[0]!.study)
  /** Entries not in force, by path, e.g. `input.max`, `limits.loadRegulation`, `weights.heat`. */
  const entries = shallowReactive<Record<string, FieldState>>({ ...saved?.entries })
  const undoSteps = shallowRef<readonly Step[]>([])
  const redoSteps = shallowRef<readonly Step[]>([])
  /** What the last change did, for the live region and the toast. */
  const lastChange = ref('')
  let gestureOpen: string | undefined

  const undoLabel = computed(() => undoSteps.value.at(-1)?.label)
  const redoLabel = computed(() => redoSteps.value.at(-1)?.label)

  function save(): void {
    writeSaved({ study: study.value, entries: { ...entries } })
  }

  function commit(next: Study, label: string, gesture?: string): void {
    const last = undoSteps.value.at(-1)
    const continues = gesture !== undefined && gesture === gestureOpen && last?.after === study.value
    const before = continues ? last.before : study.value
    const text = continues ? (describeChange(before, next) ?? label) : label
    const kept = continues ? undoSteps.value.slice(0, -1) : undoSteps.value
    undoSteps.value = [...kept, { label: text, before, after: next }].slice(-UNDO_STEPS)
    redoSteps.value = []
    gestureOpen = gesture
    study.value = next
    lastChange.value = text
  }

  /** Tries the waiting entries again until none is accepted any more; returns the study with those that were. */
  function settleEntries(start: Study): Study {
    let current = start
    for (let again = true; again; ) {
      again = false
      for (const [path, entry] of Object.entries(entries)) {
        if (entry.value === undefined) continue
        const checked = checkEdit(current, path, entry.value)
        if (checked.study) {
          current = checked.study
          delete entries[path]
          again = true
        } else {
          entries[path] = { ...entry, problem: checked.problem, ...(checked.fix && { fix: checked.fix }) }
        }
      }
    }
    return current
  }

  /**
   * Puts `value` in force at `path` if the study stays valid; otherwise keeps `text` and its problem in `entries`.
   * Edits with one `gesture` (a drag, a held key) make one undo step. `undefined` leaves a limit unjudged.
   * @returns true when the value is in force
   */
  function edit(path: string, value: FieldValue, options: { text?: string; gesture?: string } = {}): boolean {
    const checked = checkEdit(study.value, path, value)
    if (!checked.study) {
      entries[path] = {
        text: options.text ?? String(value),
        value,
        problem: checked.problem,
        ...(checked.fix && { fix: checked.fix }),
      }
      save()
      return false
    }
    delete entries[path]
    if (readPath(study.value, path) === value) {
      save()
      return true
    }
    const next = settleEntries(checked.study)
    commit(next, describeChange(study.value, next) ?? path, options.gesture)
    save()
    return true
  }

  /** Keeps a text that could not be read as a value, with its problem; the value in force stays. */
  function reject(path: string, text: string, problem: string): void {
    entries[path] = { text, value: undefined, problem }
    save()
  }

  /** Drops a waiting entry: the field shows the value in force again. */
  function restore(path: string): void {
    if (!(path in entries)) return
    delete entries[path]
    save()
  }

  function clearEntries(): void {
    for (const path of Object.keys(entries)) delete entries[path]
  }

  function undo(): void {
    const step = undoSteps.value.at(-1)
    if (!step) return
    undoSteps.value = undoSteps.value.slice(0, -1)
    redoSteps.value = [...redoSteps.value, step]
    gestureOpen = undefined
    clearEntries()
    study.value = step.before
    lastChange.value = `Undone: ${step.label}`
    save()
  }

  function redo(): void {
    const step = redoSteps.value.at(-1)
    if (!step) return
    redoSteps.value = redoSteps.value.slice(0, -1)
    undoSteps.value = [...undoSteps.value, step]
    gestureOpen = undefined
    clearEntries()
    study.value = step.after
    lastChange.value = `Redone: ${step.label}`
    save()
  }

  /** Puts another valid study in force as one undo step. */
  function loadStudy(next: Study): void {
    clearEntries()
    commit(next, `${study.value.title} → ${next.title}`)
    save()
  }

  const examples: readonly Example[] = EXAMPLES

  return {
    study,
    entries,
    undoSteps,
    redoSteps,
    undoLabel,
    redoLabel,
    lastChange,
    examples,
    edit,
    reject,
    restore,
    undo,
    redo,
    loadStudy,
  }
})

export { readPath, withPath }
export type { FieldValue, Example }
