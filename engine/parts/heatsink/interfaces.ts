/** What lies between case and heatsink. */
import type { InterfaceRow } from './row.ts'

const AN1040 = 'Motorola/onsemi AN1040 table 1, from memory'
const LAIRD = 'Laird Tgard 5000 A15037; copy at github.com/pascalguttmann/obat-powersupplysink datasheet/A15037003.pdf'
const GENERIC = 'generic, from memory'

/** K in2/W of the pad at the two pressures of its sheet, and the contact areas in in2 that it is divided by. */
const PAD = [
  ['polyimide pad, clip (50 psi)', 0.4],
  ['polyimide pad, screw (400 psi)', 0.23],
] as const
const CONTACT = [
  ['TO-220', 0.24],
  ['TO-3', 0.85],
  ['TO-126', 0.13],
] as const

const fromMemory = (housing: string, material: string, thermalResistance: number, isolated: boolean): InterfaceRow => ({
  package: housing,
  material,
  isolated,
  thermalResistance,
  source: material.startsWith('film') ? GENERIC : AN1040,
  confidence: 'memory',
  memoryFields: [],
  note: material.startsWith('film') ? '' : 'at the recommended torque',
})

export const INTERFACES: readonly InterfaceRow[] = [
  fromMemory('TO-220', 'metal to metal, greased', 1, false),
  fromMemory('TO-220', 'metal to metal, dry', 1.2, false),
  fromMemory('TO-220', 'mica 50 um, greased', 1.6, true),
  fromMemory('TO-220', 'mica 50 um, dry', 3.4, true),
  fromMemory('TO-3', 'metal to metal, greased', 0.1, false),
  fromMemory('TO-3', 'metal to metal, dry', 0.5, false),
  fromMemory('TO-3', 'mica 75 um, greased', 0.36, true),
  fromMemory('TO-3', 'mica 75 um, dry', 1.3, true),
  fromMemory('TO-126', 'metal to metal, greased', 1.3, false),
  fromMemory('TO-126', 'metal to metal, dry', 2, false),
  fromMemory('TO-126', 'mica, greased', 3.3, true),
  fromMemory('TO-126', 'mica, dry', 4.3, true),
  fromMemory('TO-220', 'film, graphite or phase change', 0.525, false),
  fromMemory('TO-3', 'film, graphite or phase change', 0.14, false),
  ...PAD.flatMap(([material, specific]) =>
    CONTACT.map(([housing, area]): InterfaceRow => ({
      package: housing,
      material,
      isolated: true,
      thermalResistance: Number((specific / area).toFixed(2)),
      source: LAIRD,
      confidence: 'derived',
      memoryFields: [],
      note: `${specific} K in2/W read, over a contact area of ${area} in2 (assumption)`,
    })),
  ),
]

/**
 * Kelvin per watt from case to heatsink: greased metal, or greased mica where the case must be isolated. Infinite for a package that
 * takes no heatsink. TO-126: 1.3 K/W, isolated 3.3.
 */
export function interfaceResistance(housing: string, isolated = false): number {
  return interfaceOf(housing, isolated)?.thermalResistance ?? Infinity
}

/** The row behind `interfaceResistance`, with its source; undefined for a package that takes no heatsink. */
export function interfaceOf(housing: string, isolated = false): InterfaceRow | undefined {
  return INTERFACES.find(
    (row) => row.package === housing && row.isolated === isolated && row.material.endsWith('greased'),
  )
}
