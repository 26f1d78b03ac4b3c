/** The screens by name, in the order of the header. Their components are listed in `index.ts`. */
export const SCREENS = [
  { name: 'compare', title: 'Compare' },
  { name: 'decides', title: 'What decides' },
  { name: 'heat', title: 'Heat' },
  { name: 'range', title: 'Input range' },
  { name: 'ratings', title: 'Ratings' },
  { name: 'spread', title: 'Spread' },
  { name: 'faults', title: 'Faults' },
  { name: 'reliability', title: 'Reliability' },
  { name: 'cost', title: 'Cost & area' },
] as const

export type ScreenName = (typeof SCREENS)[number]['name']
