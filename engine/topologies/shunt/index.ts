/** Shunt: a resistor from input to output, a regulating element across the load. */
import type { Topology } from '../define.ts'
import { plain } from './plain.ts'

export const shunt: Topology = {
  name: 'shunt',
  title: 'Shunt',
  variants: [plain],
}
