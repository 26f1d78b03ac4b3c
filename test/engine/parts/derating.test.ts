import { describe, expect, test } from 'vitest'
import {
  allowedJunction,
  deratedJunction,
  DERATING,
  type DeratingPolicy,
  type FactorName,
  type JunctionKind,
} from '../../../engine/parts/derating/index.ts'
import { CHOICES, DERATING_WORDS } from '../../../engine/requirements/index.ts'
import { RESISTORS, resistorShare } from '../../../engine/parts/resistor/index.ts'

const POLICIES = Object.values(DERATING)
const PUBLISHED = POLICIES.filter(({ name }) => name !== 'standard' && name !== 'none')
const KINDS: readonly JunctionKind[] = ['transistor', 'diode', 'circuit']

/** The factors that are plain shares of a rating. */
function shares(policy: DeratingPolicy): [FactorName, number][] {
  return (Object.keys(policy.origins) as FactorName[]).flatMap((name): [FactorName, number][] => {
    const value = policy[name]
    return typeof value === 'number' && name !== 'heatsinkFactor' ? [[name, value]] : []
  })
}

test('standard derating keeps junctions 25 K below their maximum and at 125 degC at most', () => {
  // Common practice, no source.
  const { standard, none } = DERATING
  for (const kind of KINDS) {
    expect(deratedJunction(150, standard, kind)).toBe(125)
    expect(deratedJunction(200, standard, kind)).toBe(125)
    expect(deratedJunction(100, standard, kind)).toBe(75)
    expect(deratedJunction(200, none, kind)).toBe(200)
  }
  expect(standard).toMatchObject({
    resistorPower: 0.5,
    resistorVoltage: 0.8,
    transistorVoltage: 0.75,
    transistorCurrent: 0.75,
    soa: 0.75,
    electrolyticVoltage: 0.8,
    ceramicVoltage: 0.6,
    opAmpSupply: 0.9,
    referenceCurrent: 0.8,
    heatsinkFactor: 1.15,
  })
  expect(standard.source).toMatch(/no source/u)
})

test('no derating leaves every rating whole', () => {
  const { none } = DERATING
  expect(new Set(shares(none).map(([, share]) => share))).toEqual(new Set([1]))
  expect(none.heatsinkFactor).toBe(1)
  for (const kind of KINDS) expect(allowedJunction(150, none, kind, 40)).toBe(150)
})

describe('every policy', () => {
  test('can be chosen, has words, and says of each number where it comes from', () => {
    expect(POLICIES.map(({ name }) => name).toSorted()).toEqual([...CHOICES.derating.values].toSorted())
    for (const policy of POLICIES) {
      expect(policy).toMatchObject(DERATING_WORDS[policy.name])
      const known = new Set(['name', 'label', 'source', 'origins'])
      const factors = Object.keys(policy).filter((key) => !known.has(key))
      expect(Object.keys(policy.origins).toSorted()).toEqual(factors.toSorted())
      for (const { source } of Object.values(policy.origins)) expect(source).not.toBe('')
    }
  })

  test('asks no more of a part than its maker allows', () => {
    for (const policy of POLICIES) {
      for (const [, share] of shares(policy)) expect(share > 0 && share <= 1).toBe(true)
      expect(policy.heatsinkFactor).toBeGreaterThanOrEqual(1)
      for (const kind of KINDS)
        for (const maximum of [100, 125, 150, 175, 200])
          for (const ambient of [-55, 25, 90]) {
            const allowed = allowedJunction(maximum, policy, kind, ambient)
            expect(allowed).toBeLessThanOrEqual(maximum)
            expect(allowed).toBeLessThanOrEqual(deratedJunction(maximum, policy, kind))
          }
    }
  })

  test('leaves less heat to a part in a hotter place', () => {
    for (const policy of POLICIES)
      for (const kind of KINDS) {
        const rises = [-40, 0, 25, 50, 85].map((ambient) => allowedJunction(150, policy, kind, ambient) - ambient)
        for (let k = 1; k < rises.length; k++) expect(rises[k]!).toBeLessThan(rises[k - 1]!)
      }
  })
})

describe('published policies', () => {
  test('are two at least, and keep what was read apart from what is from memory', () => {
    const documents = new Set(PUBLISHED.map(({ origins }) => origins.resistorPower.source))
    expect(documents.size).toBeGreaterThanOrEqual(2)
    for (const policy of PUBLISHED) {
      const kinds = new Set(Object.values(policy.origins).map(({ confidence }) => confidence))
      const own = policy.name.startsWith('navsea') ? 'read' : 'memory'
      expect(kinds).toEqual(new Set([own, 'assumption']))
      expect(/from memory/u.test(policy.source)).toBe(own === 'memory')
    }
  })

  test('SD-18 has the numbers of its quality level 2', () => {
    // NAVSEA SD-18, www.navsea.navy.mil (NSWC Crane), as read: protected, normal, severe.
    const columns = (['-protected', '', '-severe'] as const).map((end) => DERATING[`navsea-sd-18${end}`])
    const row = (name: FactorName) => columns.map((policy) => policy[name])
    expect(row('transistorVoltage')).toEqual([0.8, 0.75, 0.3])
    expect(row('transistorCurrent')).toEqual([0.9, 0.8, 0.6])
    expect(row('transistorPower')).toEqual([0.9, 0.8, 0.6])
    expect(row('diodePower')).toEqual([0.9, 0.8, 0.5])
    expect(columns.map((p) => deratedJunction(200, p, 'diode'))).toEqual([100, 85, 70])
    expect(columns.map((p) => deratedJunction(200, p, 'circuit'))).toEqual([125, 110, 100])
    expect(row('opAmpSupply')).toEqual([0.8, 0.8, 0.7])
    expect(columns[1]).toMatchObject({
      resistorPower: 0.55,
      wirewoundPower: 0.6,
      resistorVoltage: 0.7,
      ceramicVoltage: 0.6,
      tantalumVoltage: 0.6,
      electrolyticVoltage: 0.7,
    })
  })

  test('EEE-INST-002 and ECSS-Q-ST-30-11C have their numbers', () => {
    // Both from memory, not confirmed.
    const nasa = DERATING['nasa-eee-inst-002']
    const ecss = DERATING['ecss-q-st-30-11c']
    expect(nasa).toMatchObject({ resistorPower: 0.6, resistorVoltage: 0.8, diodePower: 0.5, diodeCurrent: 0.75 })
    expect(nasa).toMatchObject({ transistorPower: 0.6, transistorCurrent: 0.75, transistorVoltage: 0.75 })
    // 0.8 Tj,max, 125 °C, or 40 K below: of 150 °C these are 120, 125 and 110; of 200 °C 160, 125 and 160
    expect(deratedJunction(150, nasa)).toBe(110)
    expect(deratedJunction(200, nasa)).toBe(125)
    expect(ecss).toMatchObject({ resistorPower: 0.5, wirewoundPower: 0.6, transistorPower: 0.65, diodePower: 0.65 })
    expect(deratedJunction(150, ecss)).toBe(110)
    expect(deratedJunction(140, ecss)).toBe(100)
  })
})

test('60 % of the power warms the junction 60 % of the way from the ambient', () => {
  // General relation Tj = Ta + θ·P: (110 - 50)/(150 - 50) = 0.6.
  const nasa = DERATING['nasa-eee-inst-002']
  expect(allowedJunction(150, nasa, 'transistor', 50)).toBe(110)
  expect(allowedJunction(150, nasa, 'transistor', 25)).toBe(100)
  expect(allowedJunction(150, nasa, 'transistor', 85)).toBe(110)
  expect(allowedJunction(150, nasa, 'diode', 25)).toBe(87.5)
})

test('wirewound resistors have a share of their own', () => {
  const shareOf = (technology: string) =>
    resistorShare(
      RESISTORS.find((r) => r.technology === technology)!,
      DERATING['navsea-sd-18'],
    )
  expect(['wirewound', 'wirewound cement', 'metal film', 'thick film'].map(shareOf)).toEqual([0.6, 0.6, 0.55, 0.55])
})
