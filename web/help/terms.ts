/**
 * The trade terms of the page, each explained once. Figures explain themselves in the engine (`engine/figures`) and are not
 * repeated here.
 */
import { lower } from '../../engine/units/index.ts'

/** What a term means and why anybody should care. */
export interface Explained {
  /** As it stands within a sentence: "derating". */
  readonly term: string
  readonly isPlural?: boolean
  /** What it is, in a sentence or two. */
  readonly is: string
  /** Why it matters, in a sentence. */
  readonly matters: string
}

export const TERMS = {
  inputVoltage: {
    term: 'the input voltage',
    is: 'The voltage of the source: the lowest and the highest that it may have, and what it has on most days. Ripple rides on top.',
    matters:
      'The lowest leaves the regulator the least room to work, the highest makes the most heat: each further volt at the top is burnt, not used.',
  },
  output: {
    term: 'the output band',
    is: 'The voltage the load is to get, and how far it may stray either way with every tolerance, input, load and temperature counted.',
    matters: 'A narrow band asks for a loop, better references and closer resistors; a wide one lets three parts do.',
  },
  loadCurrent: {
    term: 'the load current',
    is: 'What the load draws: the least, the most, and what it draws on most days. A load that can be taken off counts as no load, too.',
    matters:
      'The most sets heat and sag; the least decides whether a shunt must swallow everything the load leaves over.',
  },
  ambient: {
    term: 'ambient',
    is: 'The temperature of the air around the board, inside the box: coldest, hottest and usual.',
    matters: 'Heat only flows downhill: the hotter the air, the less each part may turn into heat.',
  },
  limits: {
    term: 'limits',
    isPlural: true,
    is: 'Figures that the design must keep at its worst corner. An empty limit is not judged.',
    matters: 'A design that misses one falls short, however good the rest of it is.',
  },
  survivesShort: {
    term: 'surviving the short',
    is: 'No part goes beyond its full rating while the output stays shorted.',
    matters: 'A rail that only survives until somebody slips with a probe costs a repair for every slip.',
  },
  parts: {
    term: 'the choice of parts',
    is: 'Which resistor values may be bought and how close they are, how parts are mounted, and how much of a rating may be used.',
    matters: 'Coarse values and wide tolerances cost output accuracy; small packages cost heat.',
  },
  derating: {
    term: 'derating',
    is: 'Using only part of what a maker allows: 50 % of the power, 80 % of the voltage, a cooler junction. The rule is chosen under Parts.',
    matters: 'Parts that are not worked to their limit run cooler, last longer and forgive what nobody counted.',
  },
  weight: {
    term: 'a weight',
    is: 'How much a figure counts in the points, from 0 to 10. Only the proportions matter: 2 and 4 say the same as 1 and 2.',
    matters: 'Three sound designs differ in kind; the weights say which difference you care about.',
  },
  points: {
    term: 'the score',
    is: 'Points out of 100: each weighted figure gives its share to the best of the designs and less to the others.',
    matters: 'It ranks designs that meet the requirements; it never lifts one that falls short above one that meets.',
  },
  verdict: {
    term: 'the verdict',
    is: 'Meets: every requirement holds at every corner with every part inside its derated ratings. Falls short: at least one does not. Cannot be built: no values were found at all.',
    matters:
      'It is the answer to “may I build this?”; the points only say which of the sound ones you would like best.',
  },
  powerFlow: {
    term: 'the flow of power',
    is: 'Width is watts. What goes straight on reaches the load; what turns down becomes heat in the part it is named by.',
    matters: 'It shows at a glance which part has to be cooled and what a better circuit could save.',
  },
  worstUse: {
    term: 'the worst use',
    is: 'The rating that a part fills most, in per cent of what the maker allows, at the corner that fills it most.',
    matters: 'That rating gives way first; all others of the part have more room.',
  },
  corner: {
    term: 'a corner',
    is: 'One combination of extremes: input high or low, load full or light, air hot or cold, each part at one end of its tolerance.',
    matters: 'Boards that work on the bench fail at corners; the verdict is about these and not about the middle.',
  },
  settled: {
    term: 'settled and cold',
    is: 'Cold: the first moment after switching on, with all parts at ambient. Settled: every part as warm as its own heat makes it.',
    matters: 'Currents shift as junctions warm; a design has to hold at both ends of the warming.',
  },
  frozen: {
    term: 'a frozen board',
    is: 'One board with its own set of part values, kept the same while input or load moves, temperatures held or let settle.',
    matters: 'Regulation is what one board does; the difference between two boards is tolerance and not regulation.',
  },
  margin: {
    term: 'margin',
    is: 'What is left between the stress and what is allowed, as a share of what is allowed. Below zero the part is overworked.',
    matters: 'It is what absorbs the surprises: a warmer box, a poorer part, a source that overshoots.',
  },
  thermalResistance: {
    term: 'thermal resistance',
    is: 'Kelvins of rise for each watt on the way from the junction over case and heatsink to the air. Stretches in a row add up.',
    matters: 'Times the heat it gives the temperature, so it decides whether a heatsink is needed and how large.',
  },
  runaway: {
    term: 'thermal runaway',
    is: 'A part that draws more as it warms, and warms because it draws more. It settles where each round adds less than the one before.',
    matters: 'Where it does not settle, no heatsink of a finite size saves the part.',
  },
  touch: {
    term: 'a touch limit',
    is: 'How hot a surface may be before skin that touches it burns, by material and by how long it is touched.',
    matters:
      'Parts that are well within their ratings can still burn a finger: guard them, and let local codes decide.',
  },
  safeArea: {
    term: 'the safe operating area',
    is: 'All pairs of voltage and current that a transistor bears for good: bounded by its greatest current, its power, second breakdown and its greatest voltage.',
    matters: 'A pair outside can destroy the chip although neither its voltage nor its current is too much by itself.',
  },
  yield: {
    term: 'yield',
    is: 'Out of so many boards with parts drawn at random from their tolerances, those whose output stays in the band.',
    matters:
      'The worst corner may be rarer than one board in a million; the yield tells what a production run will see.',
  },
  percentile: {
    term: 'a percentile',
    is: 'The value that so many per cent of the boards stay below: half lie under the 50th, one in a hundred above the 99th.',
    matters: 'It says how far the ordinary boards reach, where the extremes say how far the oddest one does.',
  },
  rootSumSquare: {
    term: 'the root-sum-square',
    is: 'Each tolerance moves the output by a little; their squares are added and the root is taken, as for errors that have nothing to do with each other.',
    matters:
      'Rarely do all parts err the same way at once: it lies between the optimism of one part and the pessimism of all.',
  },
  sensitivity: {
    term: 'what moves the figure',
    is: 'How far the figure goes when one part alone goes from the low to the high end of its tolerance.',
    matters: 'Money for a closer tolerance is well spent on the first line and wasted on the last.',
  },
  fault: {
    term: 'a fault',
    is: 'One part fails open or shorted, everything else is whole; the circuit is then solved anew.',
    matters: 'What the load gets when a part dies decides whether the fault costs a part or everything behind it.',
  },
  loadLine: {
    term: 'the load line',
    is: 'Output voltage against the current drawn, from nothing to a dead short. With foldback the current falls back as the output collapses.',
    matters:
      'It shows where the limit takes over, how much flows into a short, and whether a load can start against it.',
  },
  dominated: {
    term: 'a dominated design',
    is: 'One that another design equals or beats in every figure that counts.',
    matters: 'No weights whatever can bring it to the top; only other requirements can.',
  },
  failureRate: {
    term: 'a failure rate',
    is: 'Failures in 10⁹ hours of parts in their useful life (FIT), from a base rate times factors for heat, stress, quality and surroundings.',
    matters: 'It shows which part to relieve first; it is no promise of how long one board lives.',
  },
  pin: {
    term: 'a pin',
    is: 'A part or value of your choice that the sizing must keep; it works out all other parts around it.',
    matters: 'It lets you use what is in the drawer, and tells at once what that costs in every figure.',
  },
  assumption: {
    term: 'an assumption',
    is: 'A price or an area that nobody quoted: an order of magnitude until you put your own number in its place.',
    matters: 'Totals are no better than what they add up; replace the largest lines first.',
  },
  heatMap: {
    term: 'the heat map',
    is: 'The heat of a design for every pair of input voltage and load current: each shade is one class of watts.',
    matters: 'Its hottest place need not be at full load: a shunt is hottest with none.',
  },
  duty: {
    term: 'a load profile',
    is: 'How the day divides: so much of it at this current, so much at that, each at its own ambient.',
    matters: 'Energy bills and batteries see the day; parts and heatsinks see its worst hour.',
  },
  byHand: {
    term: 'a value by hand',
    is: 'The formula one would put on paper, with its numbers. Solved: what the full circuit gives with real curves of the parts.',
    matters: 'Where the two agree the formula may be trusted; where they part, the solved value counts.',
  },
} as const satisfies Record<string, Explained>

export type TermName = keyof typeof TERMS

/** The two texts of a term, named as the figures' are. */
export const helpOf = ({ is, matters }: Explained): { help: string; matters: string } => ({ help: is, matters })

/** The figure of that label, explained by what the engine says of it. */
export const figureTerm = (figure: { label: string; help: string; matters: string }): Explained => ({
  term: lower(figure.label),
  is: figure.help,
  matters: figure.matters,
})
