/** The screens by name, in the order of the header. Their components are listed in `index.ts`. */
export const SCREENS = [
  { name: 'compare', title: 'Compare' },
  { name: 'heat', title: 'Heat' },
  { name: 'ratings', title: 'Ratings' },
  { name: 'spread', title: 'Spread' },
  { name: 'faults', title: 'Faults' },
  { name: 'reliability', title: 'Reliability' },
  { name: 'cost', title: 'Cost & area' },
  { name: 'map', title: 'Where each wins' },
] as const

export type ScreenName = (typeof SCREENS)[number]['name']
