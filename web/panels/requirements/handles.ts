/** The handles of each range bar, built from the study in force. */
import { formatQuantity } from '../../../engine/units/index.ts'
import type { Study } from '../../../engine/requirements/study.ts'
import { rangeOf, readPath } from '../../store/check.ts'
import { lastDigit, quantityField, shown } from '../../store/fields.ts'
import type { useStudyStore } from '../../store/study.ts'
import type { Handle } from './handle.ts'

type StudyStore = ReturnType<typeof useStudyStore>

const number = (study: Study, path: string) => readPath(study, path) as number

/** Handles of three values in ascending order, the middle one nominal; each stops at its neighbours. `zero` is the step at 0. */
export function tripleHandles(studies: StudyStore, paths: readonly [string, string, string], zero: number): Handle[] {
  return paths.map((path, index) => {
    const field = quantityField(path)
    const value = number(studies.study, path)
    const range = rangeOf(path)
    const [below, above] = [paths[index - 1], paths[index + 1]]
    return {
      key: path,
      name: field.name,
      shape: index === 1 ? 'nominal' : 'end',
      value,
      min: below ? number(studies.study, below) : range.min,
      max: above ? number(studies.study, above) : range.max,
      step: lastDigit(field, value, zero),
      text: shown(field, value),
      set: (next, gesture) => studies.edit(path, next, { gesture, isQuiet: true }),
    }
  })
}

/** Handles of the output: its two band edges, which move together, and the voltage between them. Volts. */
export function bandHandles(studies: StudyStore): Handle[] {
  const { voltage, tolerance } = studies.study.requirements.output
  const field = quantityField('output.voltage')
  const volts = rangeOf('output.voltage')
  const band = rangeOf('output.tolerance')
  const edge = (side: -1 | 1): Handle => {
    // twelve figures: the edge is worked out, and its last bits are no requirement
    const value = Number((voltage * (1 + side * tolerance)).toPrecision(12))
    const [near, far] = [voltage * (1 + side * band.min), voltage * (1 + side * band.max)]
    return {
      key: side < 0 ? 'output.low' : 'output.high',
      name: side < 0 ? 'Output band, low edge' : 'Output band, high edge',
      shape: 'end',
      value,
      min: Math.min(near, far),
      max: Math.max(near, far),
      step: lastDigit({ ...field, isPlain: false }, Number(value.toPrecision(3)), 0.01),
      text: formatQuantity(value, 'V'),
      set: (next, gesture) =>
        studies.edit('output.tolerance', Number((Math.abs(next - voltage) / voltage).toPrecision(4)), {
          gesture,
          isQuiet: true,
        }),
    }
  }
  return [
    edge(-1),
    {
      key: 'output.voltage',
      name: field.name,
      shape: 'nominal',
      value: voltage,
      ...volts,
      step: lastDigit(field, voltage, 0.1),
      text: shown(field, voltage),
      set: (next, gesture) => studies.edit('output.voltage', next, { gesture, isQuiet: true }),
    },
    edge(1),
  ]
}
