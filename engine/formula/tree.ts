/** A formula as plain data: what every reading of it walks. */
export type Operator = '+' | '-' | '*' | '/' | '^'
export type FunctionName = 'min' | 'max' | 'sqrt' | 'abs' | 'ln' | 'exp' | 'par'

export type Tree =
  | { readonly is: 'number'; readonly value: number }
  | { readonly is: 'symbol'; readonly name: string }
  | { readonly is: 'op'; readonly op: Operator; readonly left: Tree; readonly right: Tree }
  | { readonly is: 'call'; readonly name: FunctionName; readonly args: readonly Tree[] }
  | { readonly is: 'negate'; readonly of: Tree }

export interface Formula {
  /** As it was written. */
  readonly text: string
  readonly tree: Tree
  /** Each symbol once, in the order of first appearance. */
  readonly symbols: readonly string[]
}

/** Fewest and most arguments of each function. */
export const ARGUMENTS: ReadonlyMap<string, readonly [number, number]> = new Map<
  FunctionName,
  readonly [number, number]
>([
  ['min', [2, Infinity]],
  ['max', [2, Infinity]],
  ['par', [2, Infinity]],
  ['sqrt', [1, 1]],
  ['abs', [1, 1]],
  ['ln', [1, 1]],
  ['exp', [1, 1]],
])
