/** How a quantity's symbol is set: one letter, and what follows it as subscripts. */
export interface SymbolParts {
  /** A letter to be set in italics, or a word to be set upright. */
  readonly base: string
  readonly isWord: boolean
  /** Joined by commas; empty where there is none. */
  readonly subscript: string
}

/** Written out in the formulas, a letter in print. */
const LETTERS: Readonly<Record<string, string>> = { beta: 'β', theta: 'θ', efficiency: 'η' }
/** Without a letter of their own. */
const WORDS: ReadonlySet<string> = new Set(['tol', 'fold', 'ratio'])

/** `Vin_min` is V with `in,min`; `beta_max` is β with `max`; `tol_R` is the word tol with `R`. */
export function symbolParts(symbol: string): SymbolParts {
  const [first = '', ...rest] = symbol.split('_')
  const letter = LETTERS[first]
  const isWord = WORDS.has(first)
  const base = letter ?? (isWord ? first : first.slice(0, 1))
  const tail = letter !== undefined || isWord ? '' : first.slice(1)
  return { base, isWord, subscript: [tail, ...rest].filter(Boolean).join(',') }
}
