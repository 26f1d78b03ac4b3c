/** The proof of a start, of a design that is built here and then spoilt. Ours alone: no source. */
import { describe, expect, it } from 'vitest'
import { prepare } from '../../../engine/analyses/prepare.ts'
import { proveStartUp } from '../../../engine/analyses/startUp.ts'
import { judgeStart } from '../../../engine/sizing/judge.ts'
import { isUnbuilt, needOf, sizeVariant } from '../../../engine/sizing/size.ts'
import { TOPOLOGIES } from '../../../engine/topologies/index.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'

const { requirements } = exampleStudies().find(({ title }) => title.startsWith('Loom'))!
const variant = TOPOLOGIES.find(({ name }) => name === 'feedback')!.variants.find(
  ({ name }) => name === 'single-transistor amplifier',
)!

function built() {
  const sized = sizeVariant(variant, needOf(requirements))
  if (isUnbuilt(sized)) throw new Error(sized.refusal.because)
  return sized.proof.design
}

describe('a start', () => {
  it('is proven where it has current to spare', () => {
    const design = built()
    const startUp = proveStartUp(prepare(design), requirements, new Int8Array(0), design.tolerances.length)
    expect(startUp.surplus).toBeGreaterThan(0)
    expect(judgeStart({ startUp, requirements })).toEqual([])
  })

  it.each([
    ['whole', undefined],
    ['no further than its first failure', new Map()],
  ])('without a solution at any point is not proven, asked for %s', (_, recall) => {
    const design = built()
    const elements = design.netlist.elements.map((element) =>
      element.kind === 'npn' ? { ...element, model: { ...element.model, IS: 1e300 } } : element,
    )
    const spoilt = prepare({ ...design, netlist: { ...design.netlist, elements } })
    const startUp = proveStartUp(spoilt, requirements, new Int8Array(0), 0, recall)
    expect(startUp.unsolved).toBeGreaterThan(0)
    expect(judgeStart({ startUp, requirements }).map(({ shortfall }) => shortfall.requirement)).toEqual(['start-up'])
  })
})
