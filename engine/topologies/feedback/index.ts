/** Feedback: a divider compares the output with a reference, an error amplifier drives the pass transistor. */
import type { Topology } from '../define.ts'
import { opAmpVariant } from './opAmp.ts'

export const feedback: Topology = {
  name: 'feedback',
  title: 'Feedback',
  variants: [
    opAmpVariant('operational amplifier', 'an operational amplifier', false),
    opAmpVariant('operational amplifier with limiter', 'an operational amplifier and a current limiter', true),
  ],
}
