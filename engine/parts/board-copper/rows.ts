/** What a package on a board reaches in still air with so much copper under it: published numbers, as read. */
import type { BoardCopperRow } from './row.ts'

const INFINEON =
  'Infineon Package and Thermal Information SOT223-4-2 https://pdf.datasheet.live/2a529c07/infineon.com/PACKAGE.txt'
const DIODES_INC =
  'Diodes DNLS350E (SOT-223) Nov 2015; copy at github.com/pascalguttmann/obat-powersupplysink datasheet/DNLS350E-13.pdf'
const DPAK = 'Infineon TO252 package information, same method as the SOT-223 sheet, from memory'

const OUNCE = 35e-6

const infineon = (thermalResistance: number, area?: number): BoardCopperRow => ({
  package: 'SOT-223',
  ...(area === undefined ? {} : { area }),
  thickness: OUNCE,
  board: 'one layer, FR4 80x80x1.5 mm',
  thermalResistance,
  source: INFINEON,
  confidence: 'read',
  memoryFields: [],
  note: 'finite elements, 0.5 W, still air; 16.5 K/W from junction to pin 4',
})

const diodesInc = (thermalResistance: number, area?: number): BoardCopperRow => ({
  package: 'SOT-223',
  ...(area === undefined ? {} : { area }),
  thickness: 2 * OUNCE,
  board: 'one layer, FR4 1.6 mm',
  thermalResistance,
  source: DIODES_INC,
  confidence: 'read',
  memoryFields: [],
  note: 'steady state; 15 K/W from junction to lead',
})

const dpak = (thermalResistance: number, area?: number): BoardCopperRow => ({
  package: 'DPAK TO-252',
  ...(area === undefined ? {} : { area }),
  thickness: OUNCE,
  board: 'one layer, FR4 80x80x1.5 mm',
  thermalResistance,
  source: DPAK,
  confidence: 'memory',
  memoryFields: [],
  note: '',
})

export const BOARD_COPPER: readonly BoardCopperRow[] = [
  infineon(164.3),
  infineon(81.2, 300e-6),
  infineon(68, 600e-6),
  diodesInc(125),
  diodesInc(62.5, 625e-6),
  diodesInc(41.7, 2500e-6),
  {
    package: 'SOT-223',
    area: 500e-6,
    thickness: OUNCE,
    board: 'FR4',
    thermalResistance: 60,
    source: 'ST P010xx data sheet http://38.142.81.21:8001/manual/stmicroelectronics/thyristor-scr/',
    confidence: 'read',
    memoryFields: ['thickness'],
    note: '5 cm² under the tab',
  },
  dpak(144),
  dpak(78, 300e-6),
  dpak(55, 600e-6),
  {
    package: 'DPAK TO-252',
    area: 645e-6,
    thickness: 2 * OUNCE,
    board: 'one square inch, 2 oz',
    thermalResistance: 50,
    source: 'generic sheets with a 1 in² pad, from memory',
    confidence: 'memory',
    memoryFields: [],
    note: '',
  },
  {
    package: 'SMA DO-214AC',
    thickness: OUNCE,
    board: 'FR-4, smallest footprint',
    thermalResistance: 250,
    source: 'onsemi 1SMA5913BT3/D Rev.10 Aug 2016 https://pdf.datasheet.directory/aefd1a56/liteon.com.tw/SMBJ15CA.html',
    confidence: 'read',
    memoryFields: [],
    note: '0.5 W at 25 °C, junction 150 °C',
  },
  {
    package: 'SMA DO-214AC',
    area: 5e-6,
    thickness: 13e-6,
    board: 'lands of 5 mm²',
    thermalResistance: 130,
    isDoubtful: true,
    source: 'EIC 1SMA5913A Rev.01 2006 https://dtsheet.com/doc/394775/eic-1sma5953a',
    confidence: 'read',
    memoryFields: [],
    note: 'conflicts with the 250 K/W of onsemi on a footprint of that size: taken for optimistic',
  },
  {
    package: 'SMB DO-214AA',
    thickness: OUNCE,
    board: 'FR-4, recommended footprint',
    thermalResistance: 226,
    source: 'onsemi 1SMB5913BT3/D Rev.10 Aug 2021 https://en.sekorm.com/doc/docPdfToHtmlByHtmlCall?docId=2797773',
    confidence: 'read',
    memoryFields: [],
    note: '0.55 W at 25 °C',
  },
  {
    package: 'SOD-123',
    thickness: OUNCE,
    board: 'FR-5 89x38 mm, smallest footprint',
    thermalResistance: 340,
    source: 'onsemi MMSZ5221BT1/D Rev.15',
    confidence: 'read',
    memoryFields: [],
    note: '150 K/W from junction to lead',
  },
  {
    package: 'DO-201 type, case 017AA axial',
    area: 4e-6,
    thickness: OUNCE,
    board: 'FR-4, 1 oz',
    thermalResistance: 85,
    source: 'Microsemi T4-LDS-0246 Rev.1 2012 https://pdf.datasheet.support/a082b7dc/microsemi.com/1N5378B.txt',
    confidence: 'read',
    memoryFields: [],
    note: '25 K/W from junction to lead at 10 mm: with 85 K/W only 1.47 W at 25 °C',
  },
  {
    package: 'SOIC-8',
    board: 'test board of JESD51',
    thermalResistance: 124.7,
    source: 'TI SLOS068AA (LM358)',
    confidence: 'read',
    memoryFields: [],
    note: 'DIP-8 80.9, VSSOP-8 181.4, TSSOP-8 171.7 K/W',
  },
]
