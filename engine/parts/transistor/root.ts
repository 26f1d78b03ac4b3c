/**
 * Where a rising function crosses zero between `low` and `high`; `miss` may answer -Infinity or +Infinity where it knows
 * the side alone. Regula falsi once both ends are finite, every third step a halving, so that a stuck end cannot slow it.
 * NaN where the crossing is not found within `tolerance` of 0: a jump over zero is no root.
 */
export function risingRoot(miss: (x: number) => number, low: number, high: number, tolerance: number): number {
  let atLow = -Infinity
  let atHigh = Infinity
  for (let step = 0; step < 120; step += 1) {
    const falsi = Number.isFinite(atLow) && Number.isFinite(atHigh) && step % 3 < 2
    const cut = falsi ? Math.min(Math.max(atLow / (atLow - atHigh), 1e-3), 1 - 1e-3) : 0.5
    const x = low + (high - low) * cut
    const here = miss(x)
    if (Math.abs(here) < tolerance) return x
    if (x === low || x === high) break
    if (here > 0) {
      high = x
      atHigh = here
    } else {
      low = x
      atLow = here
    }
  }
  return Number.NaN
}
