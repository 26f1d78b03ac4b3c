/** The study file: its shape, ranges and defaults, checked with every problem at once. */
export { PLACED, PRICED } from './assumed.ts'
export { checkField, checkStudy, type Checked } from './check.ts'
export { LARGEST_STUDY, parseStudyText, sizeIssue } from './text.ts'
export { migrate, MIGRATIONS, studyFile, type Migration, type StudyFile } from './file.ts'
export { listedNumber, pinnedFamily, plainNumber, pinnedIds, PINNED_TOPOLOGIES, pinnedValues, pinText } from './pins.ts'
export { PART_NUMBERS, type PartFamily } from './partNumbers.ts'
export { FORMAT, VERSION } from './schema.ts'
export {
  CHOICES,
  DEFAULTS,
  FIGURE_NAMES,
  labelOf,
  isText,
  LONGEST_NOTES,
  LONGEST_TITLE,
  RANGES,
  rangeOf,
  SWITCHES,
  TEXTS,
  WEIGHT_RANGE,
  type ChoicePath,
  type FieldRange,
  type NumberPath,
} from './fields.ts'
export {
  allowsRatio,
  axisValues,
  MAPPED,
  movedTo,
  placeOn,
  usualSpacing,
  type MapAxis,
  type MappedPath,
  type Spacing,
} from './moved.ts'
export { DERATING_WORDS, type DeratingWords } from './derating.ts'
export {
  MOST_ROWS,
  ROW_FIELDS,
  SHARE_ALLOWANCE,
  stretchesOf,
  sumOfShares,
  type RowField,
  type Stretch,
} from './profile.ts'
export { rangeText, type Issue, type IssueCode } from './wording.ts'
export type * from './study.ts'
