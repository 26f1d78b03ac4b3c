/** Shunt: a resistor from input to output, a regulating element across the load. */
import type { Topology } from '../define.ts'
import { boosted } from './boosted.ts'
import { plain } from './plain.ts'
import { referenceIcVariant } from './referenceIc.ts'

export const shunt: Topology = {
  name: 'shunt',
  title: 'Shunt',
  variants: [plain, referenceIcVariant('fixed'), referenceIcVariant('adjustable'), boosted],
}
