/**
 * The screens by name, in the order of the header, a list for each thing one does with them. Their components are listed in
 * `index.ts`.
 */
export const SCREEN_GROUPS = [
  {
    purpose: 'Choose',
    screens: [
      { name: 'compare', title: 'Compare' },
      { name: 'decides', title: 'What decides' },
      { name: 'sets', title: 'Side by side' },
    ],
  },
  {
    purpose: 'Explore',
    screens: [
      { name: 'map', title: 'Where each wins' },
      { name: 'range', title: 'Input range' },
      { name: 'day', title: 'Day' },
    ],
  },
  {
    purpose: 'Stress',
    screens: [
      { name: 'heat', title: 'Heat' },
      { name: 'ratings', title: 'Ratings' },
      { name: 'spread', title: 'Spread' },
      { name: 'faults', title: 'Faults' },
      { name: 'reliability', title: 'Reliability' },
    ],
  },
  {
    purpose: 'Build',
    screens: [
      { name: 'circuit', title: 'Circuit' },
      { name: 'working', title: 'Working' },
      { name: 'parts', title: 'Parts' },
      { name: 'cost', title: 'Cost & area' },
    ],
  },
  { purpose: 'Hand over', screens: [{ name: 'brief', title: 'Brief' }] },
] as const

export type ScreenName = (typeof SCREEN_GROUPS)[number]['screens'][number]['name']

export interface ScreenEntry {
  readonly name: ScreenName
  readonly title: string
}

export const SCREENS: readonly ScreenEntry[] = SCREEN_GROUPS.flatMap(({ screens }): readonly ScreenEntry[] => screens)
