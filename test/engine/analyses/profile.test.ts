/** The day's energy of invented studies, held against the operating points that the comparison prints and against sums by hand. */
import { describe, expect, it } from 'vitest'
import type { Day, DayProfile } from '../../../engine/analyses/profile/index.ts'
import { checkStudy, compare, createSizer, inspect, report, studyFile, type Study } from '../../../engine/index.ts'
import { studyWith } from './studies.ts'

const BASE = studyWith({})
const { input, load, ambient } = BASE.requirements

/** A profile sizes nothing: all studies here share their designs. */
const sizer = createSizer()

function profilesOf(study: Study): DayProfile[] {
  const job = inspect(study, ['profile'], sizer)
  let step = job.next()
  while (!step.done) step = job.next()
  return step.value.map(({ profile }) => profile!)
}

const days = ({ nominal, lowestInput, highestInput }: DayProfile): Day[] => [nominal, lowestInput, highestInput]

/** Uneven shares, so that exchanging two of them would show. */
const ROWS = [
  { load: load.min, share: 0.62 },
  { load: load.nominal, share: 0.27 },
  { load: load.max, share: 0.11 },
]
const WITH_ROWS: Study = { ...BASE, profile: ROWS }

describe('the load profile', () => {
  const profiles = profilesOf(WITH_ROWS)

  it('conserves energy: what goes in comes out or turns to heat, to a billionth, at every input voltage', () => {
    expect(profiles).toHaveLength(3)
    for (const energy of profiles.flatMap(days).map((day) => day.energy!)) {
      expect(energy.input).toBeGreaterThan(1)
      expect(Math.abs(energy.input - energy.output - energy.heat) / energy.input).toBeLessThan(1e-9)
      const parts = Object.values(energy.heatByPart).reduce((sum, joules) => sum + joules, 0)
      expect(Math.abs(parts - energy.heat) / energy.heat).toBeLessThan(1e-12)
    }
  })

  // independent of the analysis: the points are the comparison's own, their powers summed here
  it("is the sum over the comparison's own operating points, each for its share of 86400 s", () => {
    const { designs } = compare(BASE)
    designs.forEach(({ operatingPoints, topology }, k) => {
      for (const day of days(profiles[k]!)) {
        const points = ROWS.map((row) =>
          operatingPoints!.find(({ condition: at }) => at.input === day.input && at.load === row.load),
        )
        expect(points, topology).not.toContain(undefined)
        const over = (watts: (k: number) => number) =>
          86_400 * ROWS.reduce((sum, { share }, n) => sum + share * watts(n), 0)
        const energy = day.energy!
        const near = (got: number, sum: number) => expect(Math.abs(got / sum - 1)).toBeLessThan(1e-9)
        near(
          energy.input,
          over((n) => points[n]!.inputCurrent * day.input),
        )
        near(
          energy.output,
          over((n) => points[n]!.output * ROWS[n]!.load),
        )
        near(
          energy.heat,
          over((n) => Object.values(points[n]!.heat).reduce((a, b) => a + b, 0)),
        )
        for (const [part, joules] of Object.entries(energy.heatByPart))
          near(
            joules,
            over((n) => points[n]!.heat[part] ?? 0),
          )
        near(energy.efficiency!, energy.output / energy.input)
      }
    })
  })

  it('spends at the least load and nominal ambient what the rows leave of the time', () => {
    const [most] = [ROWS[2]!]
    const left = profilesOf({ ...BASE, profile: [most] })
    const written = profilesOf({ ...BASE, profile: [most, { load: load.min, share: 0.89, ambient: ambient.nominal }] })
    left.forEach((profile, k) => {
      expect(profile.stretches[1]).toEqual({
        load: load.min,
        share: expect.closeTo(0.89, 12),
        ambient: ambient.nominal,
        isRest: true,
      })
      expect(profile.nominal.energy!.heat / written[k]!.nominal.energy!.heat).toBeCloseTo(1, 12)
    })
  })

  it('scales shares that sum to 1 but for their rounding', () => {
    const thirds = [load.min, load.nominal, load.max].map((amperes) => ({ load: amperes, share: 0.333 }))
    const { stretches } = profilesOf({ ...BASE, profile: thirds })[0]!
    expect(stretches.map(({ share }) => share)).toEqual(Array.from({ length: 3 }, () => expect.closeTo(1 / 3, 14)))
  })

  it('is warmer in the heat: a row at its own ambient is solved there', () => {
    const at = (celsius: number) => profilesOf({ ...BASE, profile: [{ load: load.max, share: 1, ambient: celsius }] })
    const [hot, cold] = [at(ambient.max), at(ambient.min)]
    hot.forEach(({ nominal }, k) => {
      expect(nominal.energy!.heat).not.toBe(cold[k]!.nominal.energy!.heat)
      expect(nominal.energy!.heat / cold[k]!.nominal.energy!.heat).toBeCloseTo(1, 0)
    })
  })

  it('takes as many rows as a study may hold', () => {
    const rows = Array.from({ length: 300 }, (_, k) => ({
      load: load.min + ((load.max - load.min) * k) / 299,
      share: 1 / 300,
    }))
    const [profile] = profilesOf({ ...BASE, profile: rows })
    expect(profile!.nominal.powers).toHaveLength(300)
    const last = profile!.nominal.powers[299]!
    expect(last.outputPower / (last.output * load.max)).toBeCloseTo(1, 9)
  })

  it('says of every input voltage which one it is', () => {
    expect(days(profiles[0]!).map((day) => day.input)).toEqual([input.nominal, input.min, input.max])
  })
})

describe('what is printed', () => {
  const printed = (study: Study) =>
    JSON.parse(JSON.stringify(report(study))) as { profile?: object; designs: { profile?: DayProfile }[] }

  it('has no profile where the study has none', { timeout: 60_000 }, () => {
    expect(studyFile(BASE)).not.toHaveProperty('profile')
    const { designs, ...rest } = printed(BASE)
    expect(rest).not.toHaveProperty('profile')
    for (const design of designs) expect(design).not.toHaveProperty('profile')
  })

  it("has the study's profile and the energies of every design", { timeout: 60_000 }, () => {
    const { designs, profile } = printed(WITH_ROWS)
    expect(profile).toEqual(ROWS)
    expect(designs.map((design) => design.profile)).toEqual(profilesOf(WITH_ROWS))
  })
})

describe('a study with a load profile', () => {
  it('is read back from its file as it was', () => {
    const profile = [
      { load: 0.02, share: 0.5, ambient: 30 },
      { load: 0.04, share: 0.25 },
    ]
    expect(checkStudy(JSON.parse(JSON.stringify(studyFile({ ...BASE, profile }))))).toEqual({
      ok: true,
      study: { ...BASE, profile },
    })
  })
})
