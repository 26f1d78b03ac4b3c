/** The flow picture's key: a round number of watts whose strand is easy to see. */

/** Least thickness of the key in units of the picture. */
const VISIBLE = 14

/** Watts from the 1-2-5 series, at least `VISIBLE` thick at `scale` units per watt; 0 without a scale. */
export function keyWatts(scale: number): number {
  if (!(scale > 0)) return 0
  const least = VISIBLE / scale
  const decade = 10 ** Math.floor(Math.log10(least))
  const lead = [1, 2, 5, 10].find((step) => step * decade >= least * (1 - 1e-9)) ?? 10
  return Number((lead * decade).toPrecision(3))
}
