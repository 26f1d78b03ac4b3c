/** One formula text, read four ways: value, dimension, printed formula, printed numbers. */
export { parseFormula } from './parse.ts'
export { compileFormula, type Evaluate } from './compile.ts'
export { dimensionOfFormula } from './dimension.ts'
export { printFormula, printSubstituted } from './print.ts'
export type { Formula, FunctionName, Operator, Tree } from './tree.ts'
export type { Dimension } from '../units/index.ts'
