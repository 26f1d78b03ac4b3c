/** The study file around its content: writing, and the way from older versions. */
import { FORMAT, VERSION } from './schema.ts'
import type { Study } from './study.ts'

/** Brings the content of a file from version `from` to the next one. It gets a fresh shallow copy and may be handed anything. */
export interface Migration {
  readonly from: number
  readonly migrate: (file: Record<string, unknown>) => Record<string, unknown>
}

/** One step a version, ascending; version 1 is the first, so there is none yet. */
export const MIGRATIONS: readonly Migration[] = []

/** The content as the current version would hold it. A file whose version is not older comes back unchanged. */
export function migrate(file: object, migrations: readonly Migration[] = MIGRATIONS): object {
  return migrations.reduce((current, step) => {
    const content = current as Record<string, unknown>
    return content['version'] === step.from ? { ...step.migrate({ ...content }), version: step.from + 1 } : content
  }, file)
}

/** A study file of the current version with every default written out; plain data, sharing nothing with `study`. */
export interface StudyFile extends Study {
  format: typeof FORMAT
  version: typeof VERSION
}

/** The study as its file holds it, keys in the published order: `checkStudy(studyFile(s))` gives `s` back. */
export function studyFile(study: Study): StudyFile {
  const { input, output, load, ambient, limits, parts, derating } = study.requirements
  return {
    format: FORMAT,
    version: VERSION,
    title: study.title,
    ...(study.notes && { notes: study.notes }),
    requirements: {
      input: { ...input },
      output: { ...output },
      load: { ...load },
      ambient: { ...ambient },
      limits: { ...limits },
      parts: { ...parts },
      derating,
    },
    weights: { ...study.weights },
    assumptions: {
      ...study.assumptions,
      prices: { ...study.assumptions.prices },
      areas: { ...study.assumptions.areas },
    },
    ...(study.pins && {
      pins: Object.fromEntries(Object.entries(study.pins).map(([topology, pins]) => [topology, { ...pins }])),
    }),
    ...(study.profile && { profile: study.profile.map((row) => ({ ...row })) }),
  }
}
