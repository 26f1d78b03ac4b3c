/** Scales of the range bars: round ends and ticks around the values in force. */

export interface Scale {
  min: number
  max: number
}

/** Distance of about `count` ticks over `span`, from the 1-2-5 series. */
export function tickStep(span: number, count: number): number {
  const raw = span / count
  const decade = 10 ** Math.floor(Math.log10(raw))
  const lead = raw / decade
  // to the nearest of the series: its neighbours' geometric means are 1.4, 3.2 and 7.1
  return decade * (lead < 1.4 ? 1 : lead < 3.2 ? 2 : lead < 7.1 ? 5 : 10)
}

/** Multiples of a 1-2-5 step inside the scale, ends included where they are multiples. */
export function linearTicks({ min, max }: Scale, count = 5): number[] {
  const step = tickStep(max - min, count)
  const ticks: number[] = []
  for (let i = Math.ceil(min / step - 1e-9); i * step <= max + step * 1e-9; i++) {
    ticks.push(Number((i * step).toPrecision(12)))
  }
  return ticks
}

/** Powers of ten inside a log scale. */
export function logTicks({ min, max }: Scale): number[] {
  const ticks: number[] = []
  for (let e = Math.ceil(Math.log10(min) - 1e-9); e <= Math.floor(Math.log10(max) + 1e-9); e++) ticks.push(10 ** e)
  return ticks
}

/** A linear scale with round ends that leaves room on both sides of `low` to `high`. */
export function roomyScale(low: number, high: number, room: number, floor = Number.NEGATIVE_INFINITY): Scale {
  const span = Math.max(high - low, Math.abs(high) * 0.05, 1e-9)
  const step = tickStep(span * (1 + 2 * room), 10)
  return {
    min: Math.max(floor, Math.floor((low - span * room) / step + 1e-9) * step),
    max: Math.ceil((high + span * room) / step - 1e-9) * step,
  }
}

/** How far the input scale looks beyond the required range, as a share of its width; the engine's curves reach as far. */
const BEYOND = 0.3

/** The input scale, in volts: somewhat beyond the required range on both sides, with round ends. */
export function inputScale(min: number, max: number): Scale {
  const beyond = BEYOND * Math.max(max - min, 0.1 * max)
  const step = tickStep(max - min + 2 * beyond, 20)
  const round = (volts: number) => Number((volts * step).toPrecision(12))
  return {
    min: round(Math.max(0, Math.floor((min - beyond) / step + 1e-9))),
    max: round(Math.ceil((max + beyond) / step - 1e-9)),
  }
}

/** A log scale of whole decades with some room at the end; a least value of 0 is shown two decades below the most. */
export function decadeScale(min: number, max: number): Scale {
  const low = min > 0 ? min : max / 100
  return { min: 10 ** Math.floor(Math.log10(low / 1.2)), max: 10 ** Math.ceil(Math.log10(max * 1.2)) }
}
