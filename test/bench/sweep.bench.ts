/** Operating points a second: the sized circuit of each topology, its input swept over the required range, each point from the one before. */
import { describe } from 'vitest'
import { subject } from './bundled.ts'
import { timed } from './timed.ts'

const { EXAMPLES, FROZEN, isUnbuilt, newWorkspace, OUTCOMES, SETTLED, sizeAll, solvePoint } = subject

const POINTS = 10_000
/** The widest load of the examples, where all three topologies can be built. */
const { study } = EXAMPLES.find(({ id }) => id === 'peat-bog')!
const { input, load, ambient } = study.requirements

describe.each([
  ['settled', SETTLED],
  ['frozen', FROZEN],
] as const)('%s junctions', (mode, code) => {
  for (const sized of sizeAll(study)) {
    if (isUnbuilt(sized)) throw new Error(`${sized.variant.name} cannot be built, so there is nothing to sweep`)
    const { design, circuit } = sized.proof.observer.prepared
    const ws = newWorkspace(circuit)
    const solve = (volts: number, thermal: typeof SETTLED | typeof FROZEN) => {
      const outcome = solvePoint(circuit, ws, volts, load.nominal, ambient.nominal, thermal)
      if (outcome !== 0) throw new Error(`${design.topology} at ${volts} V: ${OUTCOMES[outcome]}`)
    }
    timed(
      `${design.topology} (${design.variant}), ${mode}`,
      () => {
        // frozen junctions stay where they settle at the nominal input
        solve(code === FROZEN ? input.nominal : input.min, SETTLED)
        for (let k = 0; k < POINTS; k += 1) solve(input.min + ((input.max - input.min) * k) / (POINTS - 1), code)
      },
      {
        time: 500,
        says: (ms) =>
          `${((1000 * POINTS) / ms).toExponential(2)} points a second, ${((1000 * ms) / POINTS).toFixed(2)} µs each`,
      },
    )
  }
})
