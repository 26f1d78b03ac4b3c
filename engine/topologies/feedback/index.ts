/** Feedback: a divider compares the output with a reference, an error amplifier drives the pass transistor. */
import type { Topology } from '../define.ts'
import { OP_AMP_LIMITING, opAmpVariant } from './opAmp.ts'
import { SINGLE_LIMITING, singleTransistorVariant } from './singleTransistor.ts'

export const feedback: Topology = {
  name: 'feedback',
  title: 'Feedback',
  variants: [
    singleTransistorVariant('single-transistor amplifier', 'a single-transistor amplifier', SINGLE_LIMITING.none),
    singleTransistorVariant(
      'single-transistor amplifier with limiter',
      'a single-transistor amplifier and a current limiter',
      SINGLE_LIMITING.constant,
    ),
    opAmpVariant('operational amplifier', 'an operational amplifier', OP_AMP_LIMITING.none),
    opAmpVariant(
      'operational amplifier with limiter',
      'an operational amplifier and a current limiter',
      OP_AMP_LIMITING.constant,
    ),
    singleTransistorVariant(
      'single-transistor amplifier with foldback',
      'a single-transistor amplifier and a foldback limiter',
      SINGLE_LIMITING.foldback,
    ),
    opAmpVariant(
      'operational amplifier with foldback',
      'an operational amplifier and a foldback limiter',
      OP_AMP_LIMITING.foldback,
    ),
  ],
}
