/** An invented study in which all three topologies meet, with changes. */
import { type Study, checkStudy } from '../../../engine/requirements/index.ts'

export const SHUNT = 0

export function studyWith(requirements: object, assumptions: object = {}): Study {
  const checked = checkStudy({
    format: 'wattfork-study',
    version: 1,
    title: 'Invented: a rail for a sensor',
    requirements: {
      input: { min: 20, nominal: 24, max: 27 },
      output: { voltage: 9, tolerance: 0.15 },
      load: { min: 0.005, nominal: 0.02, max: 0.04 },
      ambient: { min: -20, nominal: 25, max: 50 },
      ...requirements,
    },
    assumptions,
  })
  if (!checked.ok) throw new Error(checked.issues.map(({ message }) => message).join('\n'))
  return checked.study
}
