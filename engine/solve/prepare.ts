/** Brings what depends on parameters and temperatures up to date, part by part, and only where something changed. */
import { prepareAmplifier } from '../devices/amplifier.ts'
import { BJT_SIGN, prepareBjt } from '../devices/bjt.ts'
import { prepareCurrentSource } from '../devices/currentSource.ts'
import { prepareDiode } from '../devices/diode.ts'
import { prepareReference } from '../devices/reference.ts'
import { conductanceOf } from '../devices/resistor.ts'
import type { Layout, SolverWorkspace } from './circuit.ts'

/** Models are evaluated no further than this, in degrees Celsius, whatever a temperature's iteration tries. */
const COLDEST = -200
const HOTTEST = 700

/**
 * Siemens on the diagonal of every node, in the Jacobian alone and never in the currents: it keeps a node that nothing
 * conducts to from making the matrix singular and changes no solution.
 */
const REGULAR = 1e-30

/** Recomputes derived values of parts whose junction moved, of all of them after a change of parameters. */
export function prepare(layout: Layout, ws: SolverWorkspace): void {
  const { temperature, partCount } = layout
  const { parameters, derived, conductance, preparedAt, junction } = ws
  const isStale = ws.stale
  if (isStale) prepareConstants(layout, ws)
  for (let p = 0; p < partCount; p += 1) {
    const asked = junction[p]!
    const celsius = asked < COLDEST ? COLDEST : asked > HOTTEST ? HOTTEST : asked
    if (!isStale && celsius === preparedAt[p]) continue
    preparedAt[p] = celsius
    const end = temperature.start[p + 1]!
    for (let k = temperature.start[p]!; k < end; k += 1) {
      const index = temperature.index[k]!
      const at = temperature.parameterAt[k]!
      switch (temperature.kind[k]) {
        case 0: {
          const g = conductanceOf(parameters[at]! * (1 + parameters[at + 1]! * (celsius - parameters[at + 2]!)))
          if (g !== conductance[index]) {
            conductance[index] = g
            ws.baseIsStale = true
          }
          break
        }
        case 1:
          prepareCurrentSource(parameters, at, celsius, derived, index)
          break
        case 2:
          prepareDiode(parameters, at, celsius, derived, index)
          break
        case 3:
          prepareBjt(parameters, at, celsius, derived, index)
          break
        case 4:
          prepareAmplifier(parameters, at, celsius, derived, index)
          break
        default:
          prepareReference(parameters, at, celsius, derived, index)
      }
    }
  }
  if (ws.baseIsStale) prepareBase(layout, ws)
  ws.stale = false
}

/** What depends on parameters alone. */
export function prepareConstants(layout: Layout, ws: SolverWorkspace): void {
  const { resistors, transistors, polarity } = layout
  for (let k = resistors.plainCount; k < resistors.count; k += 1) {
    ws.conductance[k] = conductanceOf(ws.parameters[resistors.seriesParameterAt[k - resistors.plainCount]!]!)
  }
  for (let k = 0; k < transistors.count; k += 1) {
    ws.derived[transistors.derivedAt[k]! + BJT_SIGN] = polarity[k]!
  }
  ws.baseIsStale = true
}

/** The part of the Jacobian that no voltage moves: resistors, floating sources, the regular diagonal. */
function prepareBase(layout: Layout, ws: SolverWorkspace): void {
  const { resistors, diagonalEntry, branchEntries, branchSigns } = layout
  const base = ws.base
  base.fill(0)
  for (let k = 0; k < diagonalEntry.length; k += 1) base[diagonalEntry[k]!]! += REGULAR
  for (let k = 0; k < resistors.count; k += 1) {
    const g = ws.conductance[k]!
    for (let s = 0; s < 4; s += 1) {
      const entry = resistors.entries[4 * k + s]!
      if (entry >= 0) base[entry]! += s < 2 ? g : -g
    }
  }
  for (let k = 0; k < branchEntries.length; k += 1)
    if (branchEntries[k]! >= 0) base[branchEntries[k]!]! += branchSigns[k]!
  ws.baseIsStale = false
}
