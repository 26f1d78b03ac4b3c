/** Feedback: a divider compares the output with a reference, an error amplifier drives the pass transistor. */
import type { Topology } from '../define.ts'
import { opAmpVariant } from './opAmp.ts'
import { singleTransistorVariant } from './singleTransistor.ts'

export const feedback: Topology = {
  name: 'feedback',
  title: 'Feedback',
  variants: [
    singleTransistorVariant('single-transistor amplifier', 'a single-transistor amplifier', false),
    singleTransistorVariant(
      'single-transistor amplifier with limiter',
      'a single-transistor amplifier and a current limiter',
      true,
    ),
    opAmpVariant('operational amplifier', 'an operational amplifier', false),
    opAmpVariant('operational amplifier with limiter', 'an operational amplifier and a current limiter', true),
  ],
}
