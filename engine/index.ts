/** The engine's door: what the page's worker, the headless run and the tests use. */
export { answer, compare, sizeAll, type PinsByTopology } from './compare/compare.ts'
export type * from './compare/comparison.ts'
export { FIGURES } from './figures/index.ts'
export {
  checkStudy,
  parseStudyText,
  studyFile,
  type Issue,
  type Requirements,
  type Study,
  type Weights,
} from './requirements/index.ts'
