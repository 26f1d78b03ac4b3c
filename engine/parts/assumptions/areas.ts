/** Board that each kind of package takes: the rectangle of its courtyard, without tracks and without the gap to its neighbour. */
import type { AreaName } from '../../requirements/study.ts'
import type { AreaRow } from './row.ts'

const LIBRARY = 'courtyard area, IPC-7351 style, from a public footprint library'

/** Sides in millimetres. */
const rectangle = (x: number, y: number): number => Number((x * y * 1e-6).toPrecision(6))

const courtyard = (x: number, y: number, note = ''): AreaRow => ({
  area: rectangle(x, y),
  source: LIBRARY,
  confidence: 'read',
  note,
})

const unknown = (note: string): AreaRow => ({ source: 'no area known', confidence: 'assumption', note })

/** Each heatsink of the catalogue has a footprint of its own. */
const bySink: AreaRow = { source: 'footprint of the heatsink itself', confidence: 'read', note: '' }

/** Square metres each. */
export const AREAS: Readonly<Record<AreaName, AreaRow>> = {
  'do-35': courtyard(9.72, 2.5, 'leads bent to 7.62 mm'),
  'do-41': courtyard(12.86, 3.2, 'leads bent to 10.16 mm'),
  'do-201': courtyard(18.34, 5.72),
  'sod-123': courtyard(4.7, 2.3),
  sma: courtyard(7, 3.5),
  smb: courtyard(7.3, 4.5),
  'to-92': courtyard(5.46, 4.74),
  'to-126': courtyard(8.5, 3.75, 'its heatsink counts apart'),
  'to-220': courtyard(10.5, 4.91, 'its heatsink counts apart'),
  'to-3': courtyard(36.4, 24.9),
  'sot-23': courtyard(3.4, 3.5),
  'sot-23-5': courtyard(4.1, 3.4),
  'dip-8': courtyard(9.8, 10.7),
  'dip-14': courtyard(9.8, 18.35),
  'soic-8': courtyard(7.4, 5.4),
  'soic-14': courtyard(7.4, 9.16),
  'axial-0204': courtyard(9.52, 2.1),
  'axial-0207': courtyard(12.26, 3),
  'axial-0309': courtyard(14.8, 3.7),
  'axial-0411': courtyard(18.14, 4.1),
  'axial-0414': courtyard(18.14, 5),
  'axial-0516': courtyard(23.22, 5.5),
  'axial-0617': courtyard(23.22, 6.5),
  'axial-20mm': courtyard(25.3, 6.9),
  'axial-38mm': courtyard(43.54, 9.5),
  'axial-48mm': courtyard(58.78, 13),
  'r-0402': courtyard(1.86, 0.94),
  'r-0603': courtyard(2.96, 1.46),
  'r-0805': courtyard(3.36, 1.9),
  'r-1206': courtyard(4.56, 2.24),
  'r-1210': courtyard(4.56, 3.16),
  'r-2010': courtyard(6.36, 3.16),
  'r-2512': courtyard(7.64, 3.84),
  'c-0603': courtyard(2.96, 1.46),
  'c-0805': courtyard(3.4, 1.96),
  'c-1206': courtyard(4.6, 2.3),
  'c-1210': courtyard(4.6, 3.2),
  'can-5': courtyard(5.5, 5.5),
  'can-6': courtyard(6.8, 6.8),
  'can-8': courtyard(8.5, 8.5),
  'can-10': courtyard(10.5, 10.5),
  'can-12': courtyard(13, 13),
  'can-16': courtyard(16.5, 16.5),
  'can-18': courtyard(18.5, 18.5),
  'film-box': courtyard(7.7, 3),
  'r-1218': {
    area: rectangle(4.56, 5.24),
    source: 'body of 3.1 x 4.6 mm with the margins of the 1206',
    confidence: 'derived',
    note: '',
  },
  'cement-upright': unknown('no footprint was seen'),
  'film-other': unknown('size differs by value and voltage'),
  'ceramic-leaded': {
    area: rectangle(7.7, 3),
    source: 'taken as a film box of the same pitch',
    confidence: 'assumption',
    note: '',
  },
  tantalum: {
    area: rectangle(7.5, 3.9),
    source: 'case of 6.0 x 3.2 mm, from memory, with 0.75 and 0.35 mm around it',
    confidence: 'assumption',
    note: 'the catalogue does not name the case',
  },
  'heatsink-clip': bySink,
  'heatsink-10k': bySink,
  'heatsink-5k': bySink,
  'heatsink-2k': bySink,
  'heatsink-1k': bySink,
}
