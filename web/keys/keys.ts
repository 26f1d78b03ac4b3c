/**
 * The keys of the page, told and bound from one list. Plain keys are our own and can be switched off; undo and redo are those
 * of the system.
 */
export type ActionName = 'undo' | 'redo' | 'next' | 'previous' | 'requirements' | 'studies' | 'save' | 'print' | 'help'

export interface Chord {
  /** `key` of a keyboard event, a letter small. */
  readonly key: string
  /** With Control, or Command on a Mac. */
  readonly withControl?: boolean
  readonly withShift?: boolean
}

export interface Binding {
  readonly action: ActionName
  /** What it does, as the dialog tells it. */
  readonly words: string
  readonly chords: readonly Chord[]
}

export const BINDINGS: readonly Binding[] = [
  { action: 'requirements', words: 'Go to the requirements', chords: [{ key: 'r' }] },
  { action: 'next', words: 'Next screen', chords: [{ key: 'n' }] },
  { action: 'previous', words: 'Screen before', chords: [{ key: 'b' }] },
  { action: 'studies', words: 'Open the studies', chords: [{ key: 's' }] },
  { action: 'save', words: 'Save as a study file', chords: [{ key: 'f' }] },
  { action: 'print', words: 'Print', chords: [{ key: 'p' }] },
  { action: 'undo', words: 'Undo', chords: [{ key: 'z', withControl: true }] },
  {
    action: 'redo',
    words: 'Redo',
    chords: [
      { key: 'y', withControl: true },
      { key: 'z', withControl: true, withShift: true },
    ],
  },
  { action: 'help', words: 'This help', chords: [{ key: '?' }] },
]

type Press = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey'>

/** A sign such as ? stands on different keys, with Shift or without: only letters tell the two apart. */
function fits(chord: Chord, press: Press): boolean {
  const key = press.key.toLowerCase()
  const isLetter = /^[a-z]$/u.test(key)
  return (
    key === chord.key &&
    (press.ctrlKey || press.metaKey) === (chord.withControl ?? false) &&
    !press.altKey &&
    (!isLetter || press.shiftKey === (chord.withShift ?? false))
  )
}

/** What a press of a key means, and whether by a plain key; undefined where it means nothing here. */
export function meant(press: Press): { action: ActionName; isPlain: boolean } | undefined {
  for (const { action, chords } of BINDINGS) {
    const chord = chords.find((each) => fits(each, press))
    if (chord) return { action, isPlain: !chord.withControl }
  }
  return undefined
}

/** The caps of a chord: "Ctrl", "Shift", "Z". */
export function capsOf({ key, withControl, withShift }: Chord, isMac: boolean): string[] {
  return [
    ...(withControl ? [isMac ? '⌘' : 'Ctrl'] : []),
    ...(withShift ? [isMac ? '⇧' : 'Shift'] : []),
    key.toUpperCase(),
  ]
}
