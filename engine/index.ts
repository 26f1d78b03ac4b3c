/** The engine's door: what the page's worker, the headless run and the tests use. */
export { createSlicer, spreadProblems, summariseBoards } from './compare/boards.ts'
export { type DecidedDesign, type Decision, type Hint, decide, newHint } from './compare/decide.ts'
export { answer, compare, report, reporting, sizeAll, type Report } from './compare/compare.ts'
export { DETAIL_NAMES, type DetailName, type Details, type Inspection, inspect } from './compare/details.ts'
export { createSizer } from './compare/sizer.ts'
export type * from './compare/comparison.ts'
export { changesFor } from './explore/change.ts'
export { mapCells, studyAt, type MapCells, type MapQuestion } from './explore/map.ts'
export { refine, type Refinement } from './explore/refine.ts'
export { tradeOf } from './explore/trade.ts'
export { FIGURES } from './figures/index.ts'
export {
  checkStudy,
  parseStudyText,
  studyFile,
  type Issue,
  type PinsByTopology,
  type Requirements,
  type Study,
  type Weights,
} from './requirements/index.ts'
