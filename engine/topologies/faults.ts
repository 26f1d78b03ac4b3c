/**
 * The faults that a design is put to. One list for every variant: which part fails is told by its role, so a variant without
 * such a part does not have the fault.
 */

export type FaultName =
  | 'output-shorted'
  | 'load-removed'
  | 'pass-shorted'
  | 'shunt-open'
  | 'reference-open'
  | 'reference-shorted'
  | 'divider-upper-open'
  | 'divider-lower-open'

export interface FaultKind {
  readonly name: FaultName
  readonly title: string
  /**
   * `shorted`: a milliohm across the part, which otherwise stays as it was; `opened`: the part is gone; the rest happens to
   * the load.
   */
  readonly how: 'shorted' | 'opened' | 'load-shorted' | 'load-removed'
  /** The part that fails, by its role; absent where it is the load. */
  readonly role?: RegExp
  /** Where the output is likely to come to rest: the solver looks there first. */
  readonly near: 'zero' | 'output' | 'input'
}

const REFERENCE = /^(shunt )?reference/

/** The list is common practice, no source. */
export const FAULTS: readonly FaultKind[] = [
  { name: 'output-shorted', title: 'Output shorted', how: 'load-shorted', near: 'zero' },
  { name: 'load-removed', title: 'Load removed', how: 'load-removed', near: 'output' },
  {
    name: 'pass-shorted',
    title: 'Pass transistor shorted',
    how: 'shorted',
    role: /^pass transistor/,
    near: 'input',
  },
  { name: 'shunt-open', title: 'Shunt transistor open', how: 'opened', role: /^shunt transistor/, near: 'input' },
  { name: 'reference-open', title: 'Reference open', how: 'opened', role: REFERENCE, near: 'input' },
  { name: 'reference-shorted', title: 'Reference shorted', how: 'shorted', role: REFERENCE, near: 'zero' },
  {
    name: 'divider-upper-open',
    title: 'Upper divider resistor open',
    how: 'opened',
    role: /^divider, upper/,
    near: 'input',
  },
  {
    name: 'divider-lower-open',
    title: 'Lower divider resistor open',
    how: 'opened',
    role: /^divider, lower/,
    near: 'output',
  },
]
