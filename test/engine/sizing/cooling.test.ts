/** What the proof finds too hot gets a larger heatsink, as long as the list holds one. */
import { describe, expect, it } from 'vitest'
import { sizeAll } from '../../../engine/compare/compare.ts'
import { DERATING } from '../../../engine/parts/derating/index.ts'
import { HEATSINKS } from '../../../engine/parts/heatsink/index.ts'
import { transistors } from '../../../engine/parts/transistor/index.ts'
import { isUnbuilt } from '../../../engine/sizing/size.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'
import { generateStudies } from '../../fixtures/studies/generate.ts'

/** Designs with a heatsink, Q1 above its derated junction and a way to the air that a larger heatsink would shorten enough. */
function couldBeCooled(): { studies: number; sinks: number; could: string[] } {
  const studies = [...exampleStudies(), ...generateStudies(2026, 24)]
  const could: string[] = []
  let sinks = 0
  for (const study of studies) {
    for (const sized of sizeAll(study)) {
      if (isUnbuilt(sized)) continue
      const { design } = sized.proof
      const pass = design.parts.find(({ id }) => id === 'Q1')
      const sink = design.parts.find(({ cools }) => cools === 'Q1')
      if (!pass || !sink) continue
      sinks++
      const hot = sized.findings.find(({ shortfall }) => shortfall.requirement === 'Q1.junction')
      if (!hot || design.variant.includes('foldback')) continue
      const ambient = study.requirements.ambient.max
      const allowed =
        pass.thermalResistance! * ((hot.shortfall.required - ambient) / (hot.shortfall.achieved - ambient))
      const kind = transistors({}).find(({ partNumber }) => partNumber === pass.partNumber)!.package
      const present = HEATSINKS.find(({ partNumber }) => partNumber === sink.partNumber)!
      const factor = DERATING[study.requirements.derating].heatsinkFactor
      const saves = (row: (typeof HEATSINKS)[number]) => (present.thermalResistance - row.thermalResistance) * factor
      if (HEATSINKS.some((row) => row.packages.includes(kind) && saves(row) > pass.thermalResistance! - allowed))
        could.push(`${study.title}, ${design.variant}: ${hot.shortfall.because}`)
    }
  }
  return { studies: studies.length, sinks, could }
}

describe('cooling', () => {
  it('leaves no transistor too hot where the next heatsink would do', () => {
    const { sinks, could } = couldBeCooled()
    expect(sinks).toBeGreaterThan(10)
    expect(could).toEqual([])
  }, 60_000)
})
