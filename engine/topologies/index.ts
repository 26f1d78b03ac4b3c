/** The topologies that compete, in the order in which they are always listed. */
import type { Topology } from './define.ts'
import { feedback } from './feedback/index.ts'
import { seriesPass } from './series-pass/index.ts'
import { shunt } from './shunt/index.ts'

export const TOPOLOGIES: readonly Topology[] = [shunt, seriesPass, feedback]

export { chooserFor } from './place/resistor.ts'
export type * from './define.ts'
export { isRefusal } from './define.ts'
