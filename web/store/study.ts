/**
 * The requirements: the last valid study, entries that are not valid yet, and the way back.
 *
 * `study` is the only thing that the engine is asked about, and it is always valid: an entry that is out of range or that
 * contradicts another one waits in `entries` with its text and its problem, and is tried again whenever another entry changes.
 */
import { computed, shallowReactive, shallowRef } from 'vue'
import { defineStore } from 'pinia'
import { parseQuantity } from '../../engine/units/index.ts'
import { checkField, DEFAULTS, LARGEST_STUDY, sizeIssue } from '../../engine/requirements/index.ts'
import type { Issue, ProfileRow, Study } from '../../engine/requirements/index.ts'
import { EXAMPLES } from '../examples/index.ts'
import type { Example } from '../examples/index.ts'
import { describeChange } from './changes.ts'
import type { Change } from './changes.ts'
import { checkEdit, isValid, readPath, readStudyFile, withPath } from './check.ts'
import type { FieldValue, Fix, StudyRead } from './check.ts'
import { quantityField, shown } from './fields.ts'
import { readSaved, writeSaved } from './saved.ts'

/** An entry whose text is not in force. A path without one holds the value in `study`. */
export interface FieldState {
  /** As typed; kept over a reload. */
  text: string
  /** The value that was read from the text; undefined where it could not be read. */
  value: FieldValue
  /** One sentence: field, value and allowed range. */
  problem: string
  /** A value that would be accepted, offered as a button. */
  fix?: Fix
}

export interface Step extends Change {
  before: Study
  after: Study
  /** From one study to another, not an edit within one. */
  isOther?: boolean
}

export interface EditOptions {
  /** What was typed, kept if the value is refused. */
  text?: string
  /** Edits of one gesture (a drag, a held key) make one undo step. */
  gesture?: string
  /** A refused value leaves no trace: for handles, which stop where the range ends. */
  isQuiet?: boolean
}

export interface LastChange {
  text: string
  /** An undo or redo, which needs no offer to undo. */
  isTravel: boolean
  /** Made with a handle: whoever moves it sees the value. */
  isGesture: boolean
}

/** A file that could not be opened, by its name as far as it has one, and every reason. */
export interface FileProblem {
  name: string
  problems: readonly string[]
}

export const UNDO_STEPS = 50

async function readFile(file: Blob): Promise<StudyRead> {
  if (file.size > LARGEST_STUDY) return { problems: [sizeIssue(file.size).message] }
  try {
    return readStudyFile(await file.text())
  } catch {
    return {
      problems: ['The browser could not read it. It may be a folder, or a file that has moved since it was chosen.'],
    }
  }
}

export const useStudyStore = defineStore('study', () => {
  const saved = readSaved()
  /** The valid study in force; replaced whole, never mutated. */
  const study = shallowRef<Study>(saved?.study ?? EXAMPLES[0]!.study)
  /** Entries not in force, by path, e.g. `input.max`, `limits.loadRegulation`, `weights.heat`. */
  const entries = shallowReactive<Record<string, FieldState>>({})
  const undoSteps = shallowRef<readonly Step[]>([])
  const redoSteps = shallowRef<readonly Step[]>([])
  /** What the last change did, for the toast. A fresh object each time, so that the same words twice are two changes. */
  const lastChange = shallowRef<LastChange>({ text: '', isTravel: false, isGesture: false })
  let gestureOpen: string | undefined

  const undoStep = computed(() => undoSteps.value.at(-1))
  const redoStep = computed(() => redoSteps.value.at(-1))

  function save(): void {
    const texts = Object.entries(entries).map(([path, entry]) => [path, entry.text])
    writeSaved({ study: study.value, texts: Object.fromEntries(texts) as Record<string, string> })
  }

  function commit(next: Study, change: Change & Pick<Step, 'isOther'>, gesture?: string): void {
    const last = undoSteps.value.at(-1)
    const continues = gesture !== undefined && gesture === gestureOpen && last?.after === study.value
    const before = continues ? last.before : study.value
    const words = (continues && describeChange(before, next)) || change
    const kept = continues ? undoSteps.value.slice(0, -1) : undoSteps.value
    undoSteps.value = [...kept, { ...words, before, after: next }].slice(-UNDO_STEPS)
    redoSteps.value = []
    gestureOpen = gesture
    study.value = next
    lastChange.value = { text: words.label, isTravel: false, isGesture: gesture !== undefined }
  }

  function refuse(path: string, text: string, value: FieldValue, problem: string, fix?: Fix): void {
    entries[path] = { text, value, problem, ...(fix && { fix }) }
  }

  /** Tries the waiting entries again until none is accepted any more; returns the study with those that were. */
  function settleEntries(start: Study): Study {
    let current = start
    for (let again = true; again;) {
      again = false
      for (const [path, entry] of Object.entries(entries)) {
        if (entry.value === undefined) continue
        const checked = checkEdit(current, path, entry.value)
        if (checked.study) {
          current = checked.study
          delete entries[path]
          again = true
        } else refuse(path, entry.text, entry.value, checked.problem, checked.fix)
      }
    }
    return current
  }

  /**
   * Puts `value` in force at `path` if the whole study stays valid; otherwise the text waits in `entries` with its problem.
   * `undefined` leaves a limit unjudged.
   * @returns true when the value is in force
   */
  function edit(path: string, value: FieldValue, options: EditOptions = {}): boolean {
    const checked = checkEdit(study.value, path, value)
    if (!checked.study) {
      if (options.isQuiet) return false
      refuse(path, options.text ?? String(value), value, checked.problem, checked.fix)
      save()
      return false
    }
    delete entries[path]
    if (readPath(study.value, path) !== value) {
      const next = settleEntries(checked.study)
      const change = describeChange(study.value, next)
      if (change) commit(next, change, options.gesture)
    }
    save()
    return true
  }

  /** Reads a typed text by its field's unit and edits; a text that cannot be read waits with its problem. */
  function enter(path: string, text: string): boolean {
    const field = quantityField(path)
    const bare = text
      .trim()
      .replace(/^(?:[≤<]=?|±|\+\/?-)/u, '')
      .trim()
    if (bare === '' && field.isOptional) return edit(path, undefined)
    const meant = field.written && /[\d.]$/u.test(bare) ? `${bare} ${field.written.unit}` : bare
    const parsed = parseQuantity(meant, field.unit)
    if (parsed.ok) return edit(path, parsed.value, { text })
    // a bare 7 in a field of per cent almost surely means 7 %
    const percent = field.unit === 'fraction' ? parseQuantity(`${bare} %`, field.unit) : undefined
    const fix =
      percent?.ok && checkEdit(study.value, path, percent.value).study
        ? { label: shown(field, percent.value), value: percent.value }
        : undefined
    const way = field.sign === '≤' ? ' An empty entry is not judged.' : ''
    refuse(path, text, undefined, `${field.name}: ${parsed.message}${way}`, fix)
    save()
    return false
  }

  /** Names the study; without a title it is untitled, and a title that is too long is refused like any other entry. */
  function rename(title: string): boolean {
    return edit('title', title.trim() || DEFAULTS.title, { text: title })
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

  /**
   * What waits goes on waiting beside a study that was brought back, with its problem said anew. What the step itself
   * changed is dropped, and so is what would be valid now: it would undo the undoing.
   */
  function reviewEntries(from: Study, to: Study): void {
    for (const [path, entry] of Object.entries(entries)) {
      if (readPath(from, path) !== readPath(to, path)) delete entries[path]
      else if (entry.value !== undefined) {
        const checked = checkEdit(to, path, entry.value)
        if (checked.study) delete entries[path]
        else refuse(path, entry.text, entry.value, checked.problem, checked.fix)
      }
    }
  }

  function travel(from: typeof undoSteps, to: typeof undoSteps, side: 'before' | 'after', word: string): void {
    const step = from.value.at(-1)
    if (!step) return
    from.value = from.value.slice(0, -1)
    to.value = [...to.value, step]
    gestureOpen = undefined
    if (step.isOther) clearEntries()
    else reviewEntries(study.value, step[side])
    study.value = step[side]
    lastChange.value = { text: `${word}: ${step.label}`, isTravel: true, isGesture: false }
    save()
  }

  const undo = () => travel(undoSteps, redoSteps, 'before', 'Undone')
  const redo = () => travel(redoSteps, undoSteps, 'after', 'Redone')

  /** Puts another valid study in force as one undo step. */
  function loadStudy(next: Study): void {
    clearEntries()
    const short = `${study.value.title} → ${next.title}`
    commit(next, { label: `Study ${short}`, short, isOther: true })
    save()
  }

  /** Puts several values in force as one undo step, if the study with all of them is valid; otherwise changes nothing. */
  function editAll(values: Readonly<Record<string, FieldValue>>): boolean {
    const next = Object.entries(values).reduce((at, [path, value]) => withPath(at, path, value), study.value)
    if (!isValid(next)) return false
    for (const path of Object.keys(values)) delete entries[path]
    const settled = settleEntries(next)
    const change = describeChange(study.value, settled)
    if (change) commit(settled, change)
    save()
    return true
  }

  /**
   * Puts other rows in force as the load profile, `undefined` for none, as one undo step; what waits in its rows is dropped,
   * but for `kept`: waiting entries by their paths from now on.
   * @returns what is wrong with the rows, which then are not in force
   */
  function editProfile(
    rows: readonly ProfileRow[] | undefined,
    label: string,
    kept: Readonly<Record<string, FieldState>> = {},
  ): readonly Issue[] {
    const profile = rows?.map((row) => ({ ...row }))
    const issues = checkField('profile', profile, study.value)
    if (issues.length > 0) return issues
    for (const path of Object.keys(entries)) if (path.startsWith('profile.')) delete entries[path]
    Object.assign(entries, kept)
    const { profile: _, ...others } = study.value
    const next = settleEntries(profile ? { ...others, profile } : others)
    commit(next, { label: `Load profile: ${label}`, short: label })
    save()
    return []
  }

  /** Why the last file could not be opened; undefined where it could. */
  const fileProblem = shallowRef<FileProblem>()
  let openings = 0

  /** Opens a study file; a file that is no valid study changes nothing and is explained in `fileProblem`. */
  async function openFile(file: Blob): Promise<void> {
    const mine = ++openings
    const read = await readFile(file)
    // another file was opened meanwhile
    if (mine !== openings) return
    if (read.study) loadStudy(read.study)
    fileProblem.value = read.problems && { name: file instanceof File ? file.name : '', problems: read.problems }
  }

  const examples: readonly Example[] = EXAMPLES

  for (const [path, text] of Object.entries(saved?.texts ?? {})) {
    if (path === 'title') rename(text)
    else enter(path, text)
  }
  undoSteps.value = []
  lastChange.value = { text: '', isTravel: false, isGesture: false }

  return {
    study,
    entries,
    undoSteps,
    redoSteps,
    undoStep,
    redoStep,
    lastChange,
    examples,
    edit,
    editAll,
    editProfile,
    enter,
    rename,
    restore,
    undo,
    redo,
    loadStudy,
    fileProblem,
    openFile,
  }
})
