/** What a range bar needs to know of each of its handles. */
export interface Handle {
  key: string
  /** Read aloud: "Lowest input voltage". */
  name: string
  shape: 'end' | 'nominal'
  value: number
  /** Where it must stop: the neighbouring handles and the allowed range. */
  min: number
  max: number
  /** One step of an arrow key: the last shown digit. */
  step: number
  /** Value with unit, as read aloud and shown. */
  text: string
  /** Tries a value; false where the other requirements do not allow it. */
  set(value: number, gesture: string): boolean
}

/** Where a value lies on a scale, 0 to 1, held inside it. A log scale shows 0 at its start. */
export function fractionOf(value: number, scale: { min: number; max: number }, isLog: boolean): number {
  const raw = isLog
    ? Math.log(Math.max(value, scale.min) / scale.min) / Math.log(scale.max / scale.min)
    : (value - scale.min) / (scale.max - scale.min)
  return Math.min(Math.max(raw, 0), 1)
}

/**
 * The value at a fraction of the scale, rounded to what a hand can aim at: 1/200 of a linear scale, two figures of a log one.
 * Beyond 0 to 1 the scale is continued.
 */
export function valueAt(fraction: number, scale: { min: number; max: number }, isLog: boolean): number {
  if (isLog) return Number((scale.min * (scale.max / scale.min) ** fraction).toPrecision(2))
  const raw = scale.min + fraction * (scale.max - scale.min)
  const grain = 10 ** Math.floor(Math.log10((scale.max - scale.min) / 50))
  return Number((Math.round(raw / grain) * grain).toPrecision(12))
}

/** A neighbour on the grid of the handle's step, held between its stops. */
export function stepped(handle: Handle, steps: number): number {
  const next = Number(((Math.round(handle.value / handle.step) + steps) * handle.step).toPrecision(12))
  return Math.min(Math.max(next, handle.min), handle.max)
}
