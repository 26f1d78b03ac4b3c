/** Studies for the tests of this folder: the content of a file, and random valid ones. */
import type { Random } from '../../../engine/random/index.ts'
import {
  CHOICES,
  FIGURE_NAMES,
  PLACED,
  PRICED,
  RANGES,
  type NumberPath,
  type Study,
} from '../../../engine/requirements/index.ts'

/** Only what a file must hold; a fresh copy, loosely typed so that a test can spoil it. */
export function leastFile() {
  const input: Record<string, unknown> = { min: 8.5, max: 14.6 }
  const output: Record<string, unknown> = { voltage: 5, tolerance: 0.08 }
  const load: Record<string, unknown> = { min: 0.002, max: 0.06 }
  const ambient: Record<string, unknown> = { min: -20, max: 50 }
  const requirements: Record<string, unknown> &
    Record<'input' | 'output' | 'load' | 'ambient', Record<string, unknown>> = {
    input,
    output,
    load,
    ambient,
  }
  const file: Record<string, unknown> & { requirements: typeof requirements } = {
    format: 'wattfork-study',
    version: 1,
    requirements,
  }
  return file
}

/** A valid study, every number random within its range and the rules between fields. */
export function anyStudy(random: Random): Study {
  const between = (low: number, high: number) => low + (high - low) * random()
  const within = (path: NumberPath) => between(RANGES[path].min, RANGES[path].max)
  const pick = <T>(choices: readonly T[]): T => choices[Math.floor(random() * choices.length)]!
  const ordered = (path: NumberPath) => {
    const [min, nominal, max] = [within(path), within(path), within(path)].toSorted((a, b) => a - b) as [
      number,
      number,
      number,
    ]
    return { min, nominal, max }
  }
  const input = ordered('input.min')
  return {
    title: pick(['', 'Peat bog', '𝛺 µ "quoted"\n', 'x'.repeat(200)]),
    ...(random() < 0.5 && { notes: pick(['Two lines\nof "text"', '<b>&amp;</b> \u2028 𝛺\u0000', 'y'.repeat(10_000)]) }),
    requirements: {
      input: {
        ...input,
        ripple: pick([0, 0.99 * (input.max - input.min)]),
        rippleFrequency: within('input.rippleFrequency'),
      },
      output: { voltage: between(1, Math.min(60, input.max)), tolerance: within('output.tolerance') },
      load: { ...ordered('load.max'), permanent: random() < 0.5 },
      ambient: ordered('ambient.min'),
      limits: {
        ...(random() < 0.5 && { loadRegulation: within('limits.loadRegulation') }),
        ...(random() < 0.5 && { lineRegulation: within('limits.lineRegulation') }),
        ...(random() < 0.5 && { outputRipple: within('limits.outputRipple') }),
        survivesShort: random() < 0.5,
      },
      parts: {
        resistorSeries: pick(CHOICES['parts.resistorSeries'].values),
        resistorTolerance: within('parts.resistorTolerance'),
        mounting: pick(CHOICES['parts.mounting'].values),
      },
      derating: pick(CHOICES.derating.values),
    },
    assumptions: {
      environment: pick(CHOICES['assumptions.environment'].values),
      quality: pick(CHOICES['assumptions.quality'].values),
      prices: Object.fromEntries(
        Object.keys(PRICED)
          .filter(() => random() < 0.1)
          .map((name) => [name, between(0, 1000)]),
      ),
      areas: Object.fromEntries(
        Object.keys(PLACED)
          .filter(() => random() < 0.1)
          .map((name) => [name, between(0, 0.1)]),
      ),
    },
    weights: Object.fromEntries(FIGURE_NAMES.filter(() => random() < 0.5).map((name) => [name, between(0, 10)])),
  }
}
