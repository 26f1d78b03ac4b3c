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
import { copyTitle, newId } from './kept.ts'
import type { Kept } from './kept.ts'
import { useLibraryStore } from './library.ts'
import type { ListChange } from './library.ts'
import { meantPin, pinPlace } from './pins.ts'
import { readSaved } from './saved.ts'
import { readShareFragment } from './shareLink.ts'

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
  /** From one study of the library to another, not an edit within one: their ids. */
  moved?: { readonly from: string; readonly to: string }
  /** What it did to the list of studies. */
  listed?: ListChange
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

/** What could not be opened, as a sentence begins with it (`The file`, `“rail.json”`), and every reason. */
export interface FileProblem {
  what: string
  problems: readonly string[]
}

/** Steps that are kept; far more than anybody makes in a session, and few enough for any memory. */
export const UNDO_STEPS = 1000

/** A table is no study; what it may be meant as. */
const TABLE: StudyRead = {
  problems: [
    'It is a table, not a study. A load profile is read on the screen “Day”, under “From a table”: open it there, or paste its rows.',
  ],
}
const isTable = (file: Blob, name: string): boolean => /\.[ct]sv$/iu.test(name) || file.type === 'text/csv'

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
  const library = useLibraryStore()
  const saved = readSaved()
  /** Which study of the library is on the desk. */
  const id = shallowRef(saved?.id ?? newId())
  /** Nothing was ever kept here: the person sees the page for the first time. */
  const isFirstVisit = saved === undefined
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
    library.keep({
      id: id.value,
      study: study.value,
      texts: Object.fromEntries(texts) as Record<string, string>,
    })
  }

  function commit(next: Study, change: Change & Pick<Step, 'moved' | 'listed'>, gesture?: string): void {
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

  /** Reads a typed text by its field's unit and edits; a text that cannot be read waits with its problem. An empty pin pins nothing. */
  function enter(path: string, text: string): boolean {
    if (pinPlace(path)) return edit(path, text.trim() === '' ? undefined : meantPin(path, text.trim()), { text })
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
    if (step.listed) library.change(step.listed, side === 'before')
    if (step.moved) {
      id.value = step.moved[side === 'before' ? 'from' : 'to']
      lay(step[side], library.find(id.value)?.texts)
    } else {
      reviewEntries(study.value, step[side])
      study.value = step[side]
    }
    lastChange.value = { text: `${word}: ${step.label}`, isTravel: true, isGesture: false }
    save()
  }

  const undo = () => travel(undoSteps, redoSteps, 'before', 'Undone')
  const redo = () => travel(redoSteps, undoSteps, 'after', 'Redone')

  /** Puts a whole study with its unfinished entries on the desk. */
  function lay(next: Study, texts: Readonly<Record<string, string>> = {}): void {
    clearEntries()
    study.value = next
    resume(texts)
  }

  /** Goes on with another study of the library as one undo step; `listed` says where it has just come from. */
  function moveTo(next: Kept, words: Change, listed?: ListChange): void {
    const moved = { from: id.value, to: next.id }
    clearEntries()
    id.value = next.id
    commit(next.study, { ...words, moved, ...(listed && { listed }) })
    resume(next.texts)
    save()
  }

  const turnedTo = (title: string): Change => {
    const short = `${study.value.title} → ${title}`
    return { label: `Study ${short}`, short }
  }

  /** Opens a study of the library. */
  function openKept(other: string): void {
    const next = other === id.value ? undefined : library.take(other)
    if (next) moveTo(next, turnedTo(next.study.title))
  }

  /** Adds a valid study to the library and opens it, as one undo step; one that is there already is opened. */
  function loadStudy(next: Study): void {
    const there = library.sameAs(next)
    if (there) return openKept(there.id)
    const added = library.made({ study: next, texts: {} })
    library.change({ after: added })
    return moveTo(added, turnedTo(next.title), { after: added })
  }

  /** A change of the list that leaves the desk as it is. */
  function relist(listed: ListChange, label: string): void {
    library.change(listed)
    commit(study.value, { label, short: label, listed })
    save()
  }

  /** Opens a copy of a study. */
  function duplicate(other: string): void {
    const kept = library.find(other)
    if (!kept) return
    const title = copyTitle(kept.study.title, library.titles)
    const added = library.made({ study: { ...kept.study, title }, texts: kept.texts })
    library.change({ after: added })
    moveTo(added, { label: `Study “${title}” made`, short: title }, { after: added })
  }

  /** Takes a study out of the library. Where it is on the desk, the one changed last comes after it. */
  function remove(other: string): void {
    // on the desk may be an older state than another tab has stored since; in the list is what is known
    const before = other === id.value ? library.find(other) : library.take(other)
    if (!before) return
    const label = `“${before.study.title}” deleted`
    if (other !== id.value) return relist({ before }, label)
    const next = library.list.find((kept) => kept.id !== other)
    const fresh = next ? undefined : library.made({ study: EXAMPLES[0]!.study, texts: {} })
    library.change({ before })
    return moveTo((next && library.take(next.id)) ?? fresh!, { label, short: label }, { before })
  }

  /** Renames a study of the list; the one on the desk has `rename`. */
  function renameKept(other: string, title: string): void {
    const before = other === id.value ? undefined : library.take(other)
    const named = title.trim() || DEFAULTS.title
    if (other === id.value) rename(named)
    else if (before && before.study.title !== named && !checkEdit(before.study, 'title', named).problem) {
      const after: Kept = { ...before, study: { ...before.study, title: named }, changed: Date.now() }
      relist({ before, after }, `Title ${before.study.title} → ${named}`)
    }
  }

  /** Shows what another tab made of the study on the desk, as one undo step. */
  function takeTheirs(): void {
    const theirs = library.takeTheirs()
    if (!theirs) return
    clearEntries()
    commit(theirs.study, { label: `“${theirs.study.title}” as changed in another tab`, short: 'from another tab' })
    resume(theirs.texts)
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

  /** Opens what is being read as a new study; what is no valid study changes nothing and is explained in `fileProblem`. */
  async function open(what: string, reading: Promise<StudyRead>): Promise<void> {
    const mine = ++openings
    const read = await reading
    // another one was opened meanwhile
    if (mine !== openings) return
    if (read.study) loadStudy(read.study)
    fileProblem.value = read.problems && { what, problems: read.problems }
  }

  const openFile = (file: Blob): Promise<void> => {
    const name = file instanceof File ? file.name : ''
    return open(name ? `“${name}”` : 'The file', isTable(file, name) ? Promise.resolve(TABLE) : readFile(file))
  }
  const openLink = (fragment: string): Promise<void> => open('The link', readShareFragment(fragment))
  const openText = (text: string): Promise<void> =>
    open(
      'The pasted text',
      Promise.resolve().then(() => readStudyFile(text)),
    )

  const examples: readonly Example[] = EXAMPLES

  /** Enters unfinished texts again. One that is valid by now is in force without a step of its own. */
  function resume(texts: Readonly<Record<string, string>>): void {
    const [undos, redos, change] = [undoSteps.value, redoSteps.value, lastChange.value]
    for (const [path, text] of Object.entries(texts)) {
      if (path === 'title') rename(text)
      else enter(path, text)
    }
    undoSteps.value = undos
    redoSteps.value = redos
    lastChange.value = change
  }

  /** Steps go on under the id that a study got. */
  const renamed = (steps: readonly Step[], from: string, to: string) =>
    steps.map((step) =>
      step.moved
        ? {
            ...step,
            moved: {
              from: step.moved.from === from ? to : step.moved.from,
              to: step.moved.to === from ? to : step.moved.to,
            },
          }
        : step,
    )

  library.attach(saved && { ...saved, id: id.value }, {
    moved(from, to) {
      undoSteps.value = renamed(undoSteps.value, from, to.id)
      redoSteps.value = renamed(redoSteps.value, from, to.id)
      id.value = to.id
      edit('title', to.study.title)
    },
    renewed: (by) => lay(by.study, by.texts),
  })
  resume(saved?.texts ?? {})
  // a page that is only looked at again is not the one that was last worked on
  if (saved?.id === undefined) save()

  return {
    id,
    isFirstVisit,
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
    openKept,
    duplicate,
    remove,
    renameKept,
    takeTheirs,
    fileProblem,
    openFile,
    openLink,
    openText,
  }
})
