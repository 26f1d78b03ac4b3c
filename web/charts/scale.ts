/** Axes, positions and label places, all in plain numbers. */

export interface Domain {
  readonly min: number
  readonly max: number
}

/** A value axis with round ends: `min` and `max` are multiples of `step`. */
export interface ValueAxis extends Domain {
  readonly step: number
}

/** The smallest step of the 1-2-5 series for which `low` to `high` takes at most `most` steps between multiples. */
export function roundStep(low: number, high: number, most: number): number {
  let decade = 10 ** Math.floor(Math.log10((high - low) / most))
  for (;;) {
    for (const lead of [1, 2, 5]) {
      const step = lead * decade
      if (Math.ceil(high / step - 1e-9) - Math.floor(low / step + 1e-9) <= most) return step
    }
    decade *= 10
  }
}

/** Round ends around `low` to `high` in at most `most` steps; without a range it is 0 to 1. */
export function roundAxis(low: number, high: number, most = 4): ValueAxis {
  if (!(Number.isFinite(low) && Number.isFinite(high))) return { min: 0, max: 1, step: 0.5 }
  const end = high > low ? high : low + Math.max(Math.abs(low) * 0.1, 1e-6)
  const step = roundStep(low, end, most)
  const exact = (n: number) => Number((n * step).toPrecision(12))
  return { min: exact(Math.floor(low / step + 1e-9)), max: exact(Math.ceil(end / step - 1e-9)), step }
}

/** Where `value` lies on the domain: 0 at `min`, 1 at `max`; outside it less than 0 or more than 1. */
export function fractionOf(value: number, { min, max }: Domain): number {
  return (value - min) / (max - min)
}

/** Smallest and largest finite value of a column where the axis lies in the domain; undefined where there is none. */
export function extentOf(axis: Float64Array, column: Float64Array, within: Domain): [number, number] | undefined {
  let low = Infinity
  let high = -Infinity
  for (let i = 0; i < axis.length; i++) {
    const x = axis[i]!
    const y = column[i]!
    if (!Number.isFinite(y) || x < within.min || x > within.max) continue
    if (y < low) low = y
    if (y > high) high = y
  }
  return low <= high ? [low, high] : undefined
}

/**
 * Moves label centres apart to at least `gap`, keeping their order and staying as near as possible to where they belong,
 * inside `low` to `high`. The result is in the order of `wanted`.
 */
export function spreadLabels(wanted: readonly number[], gap: number, low: number, high: number): number[] {
  const order = wanted.map((_, i) => i).toSorted((a, b) => wanted[a]! - wanted[b]!)
  // groups of touching labels, each centred on the mean of what its members want
  const groups: { members: number[]; centre: number }[] = []
  const half = (n: number) => ((n - 1) * gap) / 2
  const settle = (g: { members: number[]; centre: number }) => {
    const room = half(g.members.length)
    g.centre = Math.min(Math.max(g.centre, low + room), Math.max(high - room, low + room))
  }
  for (const i of order) {
    let group = { members: [i], centre: wanted[i]! }
    settle(group)
    for (;;) {
      const last = groups.at(-1)
      if (!last) break
      const reach = half(last.members.length) + half(group.members.length) + gap
      if (group.centre - last.centre >= reach - 1e-9) break
      groups.pop()
      const members = [...last.members, ...group.members]
      group = { members, centre: members.reduce((sum, m) => sum + wanted[m]!, 0) / members.length }
      settle(group)
    }
    groups.push(group)
  }
  const out = Array.from<number>({ length: wanted.length })
  for (const g of groups) {
    for (const [k, member] of g.members.entries()) out[member] = g.centre + k * gap - half(g.members.length)
  }
  return out
}
