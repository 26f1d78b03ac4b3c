/** All of the engine that is timed, as one entry for the bundler. */
export { spreadProblemOf } from '../../engine/analyses/spread/problem.ts'
export { compare, createSlicer, mapCells, newHint, sizeAll } from '../../engine/index.ts'
export { isUnbuilt } from '../../engine/sizing/size.ts'
export { compile, FROZEN, newWorkspace, OUTCOMES, SETTLED, solvePoint } from '../../engine/solve/index.ts'
export { EXAMPLES } from '../../web/examples/index.ts'
