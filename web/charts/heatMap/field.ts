/** The engine's map of heat as fields over one grid, and the classes that all maps of a screen share. */
import type { HeatMap, HeatPoint } from '../../../engine/analyses/heatMap.ts'
import type { Field } from './bands.ts'

export function fieldOf({ inputs, loads, points }: HeatMap, of: (point: HeatPoint) => number): Field {
  const values = new Float64Array(inputs.length * loads.length).fill(Number.NaN)
  const column = new Map(inputs.map((volts, i) => [volts, i]))
  const row = new Map(loads.map((amperes, j) => [amperes, j]))
  for (const point of points) values[row.get(point.load)! * inputs.length + column.get(point.input)!] = of(point)
  return { xs: inputs, ys: loads, values }
}

/** So many boundaries make one class more. */
const BOUNDARIES = 5

/** Boundaries between the classes, rising, from the 1-2-5 series: the highest lies somewhat below the hottest point of all maps. */
export function boundariesOf(maps: readonly (HeatMap | undefined)[]): number[] {
  const hottest = Math.max(0, ...maps.flatMap((map) => map?.points.map(({ heat }) => heat) ?? []))
  if (!(hottest > 0)) return []
  const series: number[] = []
  for (let e = Math.floor(Math.log10(hottest)); series.length < BOUNDARIES; e--)
    for (const lead of [5, 2, 1]) {
      const value = Number(`${lead}e${e}`)
      if (value <= 0.8 * hottest && series.length < BOUNDARIES) series.push(value)
    }
  return series.toReversed()
}
