/**
 * The code of a map's cell: in bits 0 and 1 the winner, 0 for none, else 1 for the shunt, 2 for series-pass, 3 for feedback; in
 * bits 2 to 4 which of them meet. The page reads it too: this file imports nothing.
 */

/** Code of a cell whose two requirements contradict each other or a third one. */
export const IMPOSSIBLE = 254
/** Code of a cell that has not been worked out. */
export const UNKNOWN = 255
/** Values a cell: the three scores. */
export const SCORES = 3

/** `winner`: index of the design, -1 for none; `meets`: by design. */
export const codeOf = (winner: number, meets: readonly boolean[]): number =>
  meets.reduce((code, is, k) => code + (is ? 4 << k : 0), 1 + winner)

/** Index of the winning design; -1 where none meets or nothing is known. */
export function winnerOf(code: number): number {
  return code >= IMPOSSIBLE ? -1 : (code & 3) - 1
}

export const meetsAt = (code: number, design: number): boolean => code < IMPOSSIBLE && (code & (4 << design)) !== 0

export const isContradiction = (code: number): boolean => code === IMPOSSIBLE

export const isKnown = (code: number): boolean => code !== UNKNOWN

/** `scores`: `SCORES` a cell. Points between the two best of those that meet; NaN where fewer than two do. */
export function marginAt(codes: Uint8Array, scores: Float64Array, cell: number): number {
  let best = Number.NaN
  let second = Number.NaN
  for (let k = 0; k < SCORES; k++) {
    if (!meetsAt(codes[cell]!, k)) continue
    const score = scores[SCORES * cell + k]!
    if (!(score <= best)) {
      second = best
      best = score
    } else if (!(score <= second)) second = score
  }
  return best - second
}
