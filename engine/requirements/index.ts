/** The study file: its shape, ranges and defaults, checked with every problem at once. */
export { PLACED, PRICED } from './assumed.ts'
export { checkField, checkStudy, type Checked } from './check.ts'
export { LARGEST_STUDY, parseStudyText, sizeIssue } from './text.ts'
export { migrate, MIGRATIONS, studyFile, type Migration, type StudyFile } from './file.ts'
export { FORMAT, VERSION } from './schema.ts'
export {
  CHOICES,
  DEFAULTS,
  FIGURE_NAMES,
  labelOf,
  LONGEST_TITLE,
  RANGES,
  rangeOf,
  SWITCHES,
  WEIGHT_RANGE,
  type ChoicePath,
  type FieldRange,
  type NumberPath,
} from './fields.ts'
export { axisValues, MAPPED, movedTo, type MapAxis, type MappedPath } from './moved.ts'
export { DERATING_WORDS, type DeratingWords } from './derating.ts'
export { rangeText, type Issue, type IssueCode } from './wording.ts'
export type * from './study.ts'
