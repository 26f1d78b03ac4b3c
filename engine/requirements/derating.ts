/** The derating policies that a study may name, in words. Their numbers: `engine/parts/derating/policies.ts`. */
import type { DeratingName } from './study.ts'

export interface DeratingWords {
  /** As a list of choices says it. */
  readonly label: string
  /** What it is, where its numbers come from and how they were read: one or two sentences. */
  readonly source: string
}

const sd18 = (environment: string): string =>
  `NAVSEA SD-18, quality level 2 of 3, ${environment} environment, read on web pages of NSWC Crane. Which level a part has is for its buyer to establish.`

export const DERATING_WORDS: Readonly<Record<DeratingName, DeratingWords>> = {
  standard: { label: 'standard', source: 'Common practice, no source.' },
  'navsea-sd-18-protected': { label: 'Navy, protected', source: sd18('protected') },
  'navsea-sd-18': { label: 'Navy, normal', source: sd18('normal') },
  'navsea-sd-18-severe': { label: 'Navy, severe', source: sd18('severe') },
  'nasa-eee-inst-002': {
    label: 'NASA',
    source: 'NASA EEE-INST-002, from memory: check the numbers against the document.',
  },
  'ecss-q-st-30-11c': {
    label: 'ECSS',
    source: 'ECSS-Q-ST-30-11C, from memory: check the numbers against the document.',
  },
  none: { label: 'none', source: 'Ratings as the makers print them.' },
}
