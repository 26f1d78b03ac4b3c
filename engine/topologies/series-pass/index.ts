/** Series-pass: a reference diode sets the base of an emitter follower. */
import type { Topology } from '../define.ts'
import { followerVariant } from './follower.ts'

export const seriesPass: Topology = {
  name: 'series-pass',
  title: 'Series-pass',
  variants: [
    followerVariant({ name: 'single', title: 'one follower', darlington: false, limited: false }),
    followerVariant({
      name: 'single with limiter',
      title: 'one follower and a current limiter',
      darlington: false,
      limited: true,
    }),
    followerVariant({ name: 'Darlington', title: 'a Darlington follower', darlington: true, limited: false }),
    followerVariant({
      name: 'Darlington with limiter',
      title: 'a Darlington follower and a current limiter',
      darlington: true,
      limited: true,
    }),
  ],
}
