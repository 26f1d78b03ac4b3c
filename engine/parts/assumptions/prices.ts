/** What a part of each kind may cost: orders of magnitude to compare designs by, all of them assumptions and none a quote. */
import type { PriceName } from '../../requirements/study.ts'
import type { PriceRow } from './row.ts'

const ASSUMED = { quantity: 100, date: '2026-11', confidence: 'assumption' } as const

const listed = (price: number, note = ''): PriceRow => ({
  ...ASSUMED,
  price,
  source: "the catalogue's assumption: order of magnitude for 100 pieces, in one currency",
  note,
})

/** For kinds that the catalogue's list of prices does not have. */
const ownGuess = (price: number, note: string): PriceRow => ({
  ...ASSUMED,
  price,
  source: 'our own guess, no source',
  note,
})

const unknown = (note: string): PriceRow => ({ ...ASSUMED, source: 'no price known', note })

/** Euro each. */
export const PRICES: Readonly<Record<PriceName, PriceRow>> = {
  'diode-do-35': listed(0.03),
  'diode-sod-123': listed(0.03),
  'diode-1w': listed(0.06),
  'diode-sma': listed(0.12),
  'diode-3w': listed(0.2, 'seen beside it: 1N5956BG at 0.37 US dollars in a public parts list of November 2011'),
  'diode-smb': listed(
    0.18,
    'seen beside it: a 150 V diode of this kind at 0.165 EUR on a stored page, after 25 June 2025',
  ),
  'diode-5w': listed(0.3),
  'transistor-to-92': listed(0.05),
  'transistor-to-126': listed(0.25),
  'transistor-to-220-3a': listed(0.35),
  'transistor-to-220-10a': listed(0.5),
  'transistor-to-3': listed(2),
  'darlington-to-220': listed(0.45),
  'op-amp-lm358': listed(0.15, 'the line is for LM358; taken for LM2904 too'),
  'op-amp-lm324': listed(0.18),
  'op-amp-mc3317x': listed(0.6),
  'op-amp-tlc27x': listed(0.8),
  'op-amp-mcp600x': listed(0.35),
  'op-amp-opa277': listed(3),
  'reference-tl431': listed(0.08),
  'reference-tl431-graded': listed(0.12),
  'reference-lm4040-cd': listed(0.45),
  'reference-lm4040-ab': listed(1),
  'reference-lm385': listed(0.35),
  'reference-lm336': listed(0.6),
  'resistor-small': listed(0.01, 'the line is for 0.25 W; taken for 0.5 and 0.6 W too'),
  'resistor-1w': listed(0.05),
  'resistor-2w': listed(0.08),
  'resistor-3w': listed(0.12),
  'resistor-5w': listed(0.25, 'the line is for a cement type; taken for metal oxide too'),
  'resistor-10w': listed(0.45),
  'resistor-chip': listed(0.003, 'the line is for 0603 and 0805; taken for 0402 too'),
  'resistor-chip-1206': listed(0.006, 'the line is for 1206; taken for 1210 too'),
  'resistor-chip-large': listed(0.05, 'the line is for 2512; taken for 1218 and 2010 too'),
  'electrolytic-100u': listed(0.05, 'the line is for 10 to 100 µF at 25 to 50 V; taken for lower voltages too'),
  'electrolytic-470u': listed(0.18),
  'electrolytic-1000u': listed(0.3),
  'electrolytic-2200u': listed(0.55),
  'electrolytic-4700u': listed(1),
  film: listed(0.08, 'the line is for 100 nF at 63 V; taken for 10 nF to 1 µF up to 100 V'),
  'ceramic-100n': listed(0.01, 'the line is for X7R in 0603 and 0805; taken for small C0G too'),
  'ceramic-1u': listed(0.03),
  'ceramic-22u': listed(0.12, 'the line is for 10 µF in 1206; taken for 0805, 1210 and 22 µF too'),
  'heatsink-clip': listed(0.35, 'the line is for 18 to 24 K/W; taken from 15 K/W up'),
  'heatsink-10k': listed(0.8, 'the line is for 10 to 13 K/W; taken from 9 to 15 K/W'),
  'heatsink-5k': listed(
    1.5,
    'seen beside it: a sink of 8 K/W at 7.51 to 11.23 yuan on a stored page without a date, about 1.2 EUR',
  ),
  'heatsink-2k': listed(5, 'the line is for 2 to 3 K/W; taken from 1.5 to 4 K/W'),
  'heatsink-1k': listed(12, 'the line is for 1 K/W; taken for all below 1.5 K/W'),
  'electrolytic-other': unknown('above 4700 µF or above 50 V'),
  tantalum: ownGuess(0.3, 'moulded chip'),
  'film-other': unknown('250 V and above'),
  'ceramic-leaded': ownGuess(0.05, 'C0G, 5 mm pitch'),
}
