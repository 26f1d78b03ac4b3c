/** The screens by name, in the order of the header. Their components are listed in `index.ts`. */
export const SCREENS = [
  { name: 'compare', title: 'Compare' },
  { name: 'faults', title: 'Faults' },
] as const

export type ScreenName = (typeof SCREENS)[number]['name']
