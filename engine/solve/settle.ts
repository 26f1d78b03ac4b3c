/** Temperatures: solves the circuit with its junctions as hot as its own power makes them. */
import type { CompiledCircuit, SolverWorkspace } from './circuit.ts'
import { finish } from './condition.ts'
import { CONVERGED } from './newton.ts'
import { prepare } from './prepare.ts'

export const THERMAL_RUNAWAY = 5

/** Kelvin between a junction's temperature and the one its own power asks for, in every part, at the end. */
const SELF_CONSISTENT = 1e-5
/** Beyond this, in degrees Celsius, no part is left to heat and no model holds. */
const HOTTEST = 400
const PASSES = 80
/** Largest step of a temperature in kelvin: models are steep, and a first power may be a hundred times too large. */
const LONGEST_STEP = 60
/** Gain of the loop from temperature to power and back above which a part does not settle by itself. */
const STEEPEST = 0.95

/** Solves, by `solve`, at the junctions as they stand, then moves them until they agree with the power. */
export function settle(
  circuit: CompiledCircuit,
  ws: SolverWorkspace,
  ambient: number,
  solve: (circuit: CompiledCircuit, ws: SolverWorkspace) => number,
): number {
  const { layout } = circuit
  const { thermalResistance, partCount } = layout
  const { junction, power, thermal } = ws
  for (let p = 0; p < partCount; p += 1) {
    if (thermalResistance[p] === 0) junction[p] = ambient
  }
  for (let pass = 0; pass < PASSES; pass += 1) {
    prepare(layout, ws)
    const code = solve(circuit, ws)
    if (code !== CONVERGED) return code
    finish(layout, circuit.plan, ws)
    let worst = 0
    for (let p = 0; p < partCount; p += 1) {
      const rise = thermalResistance[p]! * power[p]!
      const error = ambient + rise - junction[p]!
      if (Math.abs(error) > worst) worst = Math.abs(error)
    }
    if (worst <= SELF_CONSISTENT) return CONVERGED
    for (let p = 0; p < partCount; p += 1) {
      if (thermalResistance[p] === 0) continue
      const now = junction[p]!
      const error = ambient + thermalResistance[p]! * power[p]! - now
      // secant: how much of a step comes back as power
      const moved = now - thermal[3 * p]!
      let gain = pass === 0 ? 0 : thermal[3 * p + 2]!
      if (pass > 0 && Math.abs(moved) > 1e-9) gain = 1 + (error - thermal[3 * p + 1]!) / moved
      if (gain > STEEPEST) gain = STEEPEST
      if (gain < -20) gain = -20
      let step = error / (1 - gain)
      if (step > LONGEST_STEP) step = LONGEST_STEP
      if (step < -LONGEST_STEP) step = -LONGEST_STEP
      thermal[3 * p] = now
      thermal[3 * p + 1] = error
      thermal[3 * p + 2] = gain
      junction[p] = now + step
      if (now > HOTTEST) return THERMAL_RUNAWAY
    }
  }
  return THERMAL_RUNAWAY
}
