/** Temperatures: solves the circuit with its junctions as hot as its own power makes them. */
import type { CompiledCircuit, SolverWorkspace } from './circuit.ts'
import { finish } from './condition.ts'
import { solveByOpenLoop, solveElectrical } from './ladder.ts'
import { CONVERGED } from './newton.ts'
import { prepare } from './prepare.ts'

export const THERMAL_RUNAWAY = 5
/** Neither settled nor run away; of no concern outside, where it counts as a runaway. */
export const UNSETTLED = 6

/** Kelvin between a junction's temperature and the one its own power asks for, in every part, at the end. */
const SELF_CONSISTENT = 1e-5
/** Beyond this, in degrees Celsius, no part is left to heat and no model holds. */
const HOTTEST = 400
const PASSES = 80
/** Largest step of a temperature in kelvin: models are steep, and a first power may be a hundred times too large. */
const LONGEST_STEP = 60
/** Gain of the loop from temperature to power and back above which a part does not settle by itself. */
const STEEPEST = 0.95
/** And below which its secant is not believed. */
const STEEPEST_DOWN = -20

/** Of a patient settling: its passes, and how often in a row it goes back halfway from temperatures that have no solution. */
const PATIENT_PASSES = 240
const RETREATS = 8
/** Passes after which it takes a part's step to have gone too far where the sign of its error changes, and how it goes on. */
const TAMED_AFTER = 12
const TAMER = 0.5
const BOLDER = 1.3
const PATIENT_STEEPEST_DOWN = -1e6
/** A longer one steps over a settled state that lies next to one that runs away. */
const PATIENT_STEP = 20

/**
 * Solves at the junctions as they stand, then moves them until they agree with the power. A patient settling is for points on
 * which a plain one has failed: it solves by any means, goes back from temperatures that have no solution, and takes small
 * steps, so that it neither leaps over a settled state nor goes round one where a part's heat turns over within a fraction of a
 * kelvin (a leakage that outgrows what sinks it).
 */
export function settle(circuit: CompiledCircuit, ws: SolverWorkspace, ambient: number, isPatient: boolean): number {
  const { layout } = circuit
  const { thermalResistance, partCount } = layout
  const { junction, power, thermal, longest } = ws
  const most = isPatient ? PATIENT_PASSES : PASSES
  const steepestDown = isPatient ? PATIENT_STEEPEST_DOWN : STEEPEST_DOWN
  let retreats = 0
  const longestStep = isPatient ? PATIENT_STEP : LONGEST_STEP
  longest.fill(longestStep)
  for (let p = 0; p < partCount; p += 1) {
    if (thermalResistance[p] === 0) junction[p] = ambient
  }
  for (let pass = 0; pass < most; pass += 1) {
    prepare(layout, ws)
    // temperatures that were moved too far may have no solution at all: a patient settling looks longer
    const code = isPatient ? solveByOpenLoop(circuit, ws) : solveElectrical(circuit, ws, pass > 0)
    if (code !== CONVERGED) {
      if (!isPatient || pass === 0) return code
      if (hottest(junction) > HOTTEST) return THERMAL_RUNAWAY
      if (retreats === RETREATS) return code
      retreats += 1
      for (let p = 0; p < partCount; p += 1)
        if (thermalResistance[p] !== 0) junction[p] = 0.5 * (junction[p]! + thermal[3 * p]!)
      continue
    }
    retreats = 0
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
      let gain = pass === 0 || isPatient ? 0 : thermal[3 * p + 2]!
      if (pass > 0 && Math.abs(moved) > 1e-9) gain = 1 + (error - thermal[3 * p + 1]!) / moved
      if (gain > STEEPEST) gain = STEEPEST
      if (gain < steepestDown) gain = steepestDown
      let step = error / (1 - gain)
      if (isPatient && pass >= TAMED_AFTER) {
        const isTurned = error * thermal[3 * p + 1]! < 0
        longest[p] = isTurned
          ? TAMER * Math.min(longest[p]!, Math.abs(moved))
          : Math.min(longestStep, BOLDER * longest[p]!)
      }
      if (step > longest[p]!) step = longest[p]!
      if (step < -longest[p]!) step = -longest[p]!
      thermal[3 * p] = now
      thermal[3 * p + 1] = error
      thermal[3 * p + 2] = gain
      junction[p] = now + step
      if (now > HOTTEST) return THERMAL_RUNAWAY
    }
  }
  return UNSETTLED
}

function hottest(junction: Float64Array): number {
  let most = -Infinity
  for (let p = 0; p < junction.length; p += 1) if (junction[p]! > most) most = junction[p]!
  return most
}
