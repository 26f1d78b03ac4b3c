/** The conditions at which a design is proven, all from one set of requirements. */
import type { Requirements } from '../requirements/study.ts'
import type { Observer } from './observe.ts'

/**
 * The load current, in amperes, by which a shorted output is expressed: the load draws I·tanh(V / 0.1 V), so at 1 kA its
 * resistance is 0.1 mΩ and it takes whatever the circuit delivers.
 */
export const SHORT_LOAD = 1000

/** Indices into the observer's conditions. */
export interface Conditions {
  /** Both ends of input, load and ambient. */
  corners: number[]
  /** Both ends of input and ambient with the load taken away; empty where the load is permanent or may be zero anyway. */
  unloaded: number[]
  /** [light, full] at both ends of input and ambient. */
  loadPairs: [number, number][]
  /** [low, high] input at both ends of load and ambient. */
  linePairs: [number, number][]
  /** [trough, crest] of the input ripple, at both ends of the input, of load and of ambient; empty without ripple. */
  ripplePairs: [number, number][]
  /** Nominal input and load at nominal, coldest and hottest ambient. */
  nominal: number
  coldest: number
  hottest: number
  /** Full load, nominal input, nominal ambient. */
  fullLoad: number
  /** No load, nominal input, nominal ambient. */
  noLoad: number
}

const ends = (range: { min: number; max: number }): number[] =>
  range.min === range.max ? [range.min] : [range.min, range.max]

const grid = <T>(as: number[], bs: number[], make: (a: number, b: number) => T): T[] =>
  as.flatMap((a) => bs.map((b) => make(a, b)))

export function conditionsOf(observer: Observer, requirements: Requirements): Conditions {
  const { input, load, ambient } = requirements
  const at = observer.condition
  return {
    corners: grid(ends(input), ends(ambient), (v, t) => ends(load).map((i) => at(v, i, t))).flat(),
    unloaded: load.min > 0 && !load.permanent ? grid(ends(input), ends(ambient), (v, t) => at(v, 0, t)) : [],
    loadPairs: grid(ends(input), ends(ambient), (v, t) => [at(v, load.min, t), at(v, load.max, t)]),
    linePairs: grid(ends(load), ends(ambient), (i, t) => [at(input.min, i, t), at(input.max, i, t)]),
    ripplePairs:
      input.ripple > 0
        ? grid(ends(load), ends(ambient), (i, t): [number, number][] => [
            [at(input.min, i, t), at(input.min + input.ripple, i, t)],
            [at(input.max - input.ripple, i, t), at(input.max, i, t)],
          ]).flat()
        : [],
    nominal: at(input.nominal, load.nominal, ambient.nominal),
    coldest: at(input.nominal, load.nominal, ambient.min),
    hottest: at(input.nominal, load.nominal, ambient.max),
    fullLoad: at(input.nominal, load.max, ambient.nominal),
    noLoad: at(input.nominal, 0, ambient.nominal),
  }
}
