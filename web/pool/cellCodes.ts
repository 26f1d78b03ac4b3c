/** What the code of a map's cell says, as the engine has it (`MapCells`, `Refinement`). */

export const IMPOSSIBLE = 254
export const UNKNOWN = 255
/** Values a cell: the three scores. */
export const SCORES = 3

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
