/** What the numbers rest on, and what to be warned of. */
import type { PartHeat } from '../../../engine/analyses/heat/index.ts'
import type { Comparison, Design } from '../../../engine/compare/comparison.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import { DERATING_WORDS } from '../../../engine/requirements/index.ts'
import { capital, formatQuantity } from '../../../engine/units/index.ts'
import { cautionsOf, marginNotes } from '../../panels/headline/notes.ts'
import { surfaceName } from '../../panels/heat/words.ts'
import { listed } from '../../panels/lane/checks.ts'
import { nameOf } from './standings.ts'

/** A sentence or more with the designs that it concerns; no names where it concerns all. */
export interface Caveat {
  /** In front, in bold. */
  readonly title?: string
  readonly text: string
}

const titled = ({ text, names }: { text: string; names: readonly string[] }): Caveat =>
  names.length > 0 ? { title: `${capital(listed(names))}:`, text } : { text }

// --- cautions

/** Fault cautions of a chosen design that stand on the first page: they come the gravest first. */
const GRAVEST = 2

const detailsOf = (comparison: Comparison, inspection: Inspection, design: Design) =>
  inspection[comparison.designs.indexOf(design)]

/** The hottest surface of a design against what skin bears. */
function touchCaveat(parts: readonly PartHeat[], name: string): Caveat | undefined {
  const hottest = parts.toSorted((a, b) => b.surface.temperature - a.surface.temperature)[0]
  if (!hottest) return undefined
  const { surface, condition } = hottest
  const where = `${capital(surfaceName(hottest))} of ${name} reaches ${surface.atMost ? 'at most ' : ''}${formatQuantity(surface.temperature, '°C')} at ${formatQuantity(condition.input, 'V')} in and ${formatQuantity(condition.ambient, '°C')} ambient`
  const { limit } = surface
  return limit
    ? {
        title: 'Hot surface.',
        text: `${where}. From ${formatQuantity(limit.temperature, '°C')}: ${limit.meaning} (${limit.source}${limit.confidence === 'memory' ? ', from memory' : ''}). Guard or label it.`,
      }
    : {
        title: 'Warmest surface.',
        text: `${where}; it passes no published touch limit on the list. Measure it all the same.`,
      }
}

/** What is said where no caution is common to all. */
const STANDING = 'These are estimates. Data sheets, measurement on the bench, local codes and licensed practice decide.'

/** What holds of every design that has a circuit. */
function commonCautions({ designs }: Comparison): readonly string[] {
  const [first, ...others] = designs.filter(({ circuit }) => circuit)
  return first?.cautions.filter((text) => others.every(({ cautions }) => cautions.includes(text))) ?? []
}

/** The cautions that a decision must know: of the designs that are looked at. */
export function firstCautions(comparison: Comparison, inspection: Inspection, chosen: readonly Design[]): Caveat[] {
  const own = chosen.flatMap((design) => {
    const details = detailsOf(comparison, inspection, design)
    const touch = touchCaveat(details?.thermal?.parts ?? [], nameOf(design))
    const faults = (details?.faults?.cautions ?? []).slice(0, chosen.length > 1 ? 1 : GRAVEST)
    const which = chosen.length > 1 ? `Fault of ${nameOf(design)}.` : 'Fault.'
    return [...(touch ? [touch] : []), ...faults.map((text): Caveat => ({ title: which, text }))]
  })
  const common = commonCautions(comparison)
  return [
    ...own,
    ...openQuestions(comparison),
    { title: 'In any case.', text: common.length > 0 ? common.join(' ') : STANDING },
  ]
}

/**
 * Those of the designs that are looked at, and the gravest of the others, design by design, each once; what stands on the first
 * page is not repeated.
 */
export function furtherCautions(
  comparison: Comparison,
  inspection: Inspection,
  chosen: readonly Design[],
  told: readonly Caveat[],
): Caveat[] {
  const known = new Set([...told.map(({ text }) => text), ...commonCautions(comparison)])
  const faultsOf = (k: number) => inspection[k]?.faults?.cautions ?? []
  const gravest = new Set(comparison.designs.flatMap(({ cautions }, k) => [...cautions, ...faultsOf(k).slice(0, 1)]))
  const looked = chosen.map(nameOf)
  const order = comparison.designs.map(nameOf)
  const all = comparison.designs.map(({ topology, cautions }, k) => ({
    topology,
    cautions: [...cautions, ...faultsOf(k)],
  }))
  return cautionsOf({ designs: all })
    .filter(({ text, names }) => {
      const concerns = names.length === 0 || gravest.has(text) || names.some((name) => looked.includes(name))
      return concerns && !known.has(text)
    })
    .toSorted((a, b) => place(a.names, order) - place(b.names, order))
    .map(titled)
}

/** Single designs in their order, then several together, then all. */
const place = (names: readonly string[], order: readonly string[]): number =>
  names.length === 1 ? order.indexOf(names[0]!) : names.length === 0 ? Infinity : order.length

// --- assumptions

const ENVIRONMENTS: Readonly<Record<string, string>> = {
  'ground-benign': 'ground, benign',
  'ground-fixed': 'ground, fixed',
  'ground-mobile': 'ground, mobile',
}

/** What the designs assume, then what the figures do. */
export function assumptionsOf(comparison: Comparison): Caveat[] {
  const { designs, requirements, assumptions } = comparison
  const own = cautionsOf({
    designs: designs.map((design) => ({ topology: design.topology, cautions: design.assumptions })),
  })
  const hasOwn = Object.keys(assumptions.prices).length + Object.keys(assumptions.areas).length > 0
  return [
    ...own.toSorted((a, b) => a.names.length - b.names.length).map(titled),
    {
      title: 'Tolerances:',
      text: 'each anywhere within its data-sheet limits, on its own. The worst corner is searched for by solving; not every combination is visited.',
    },
    {
      title: 'Derating:',
      text: `${DERATING_WORDS[requirements.derating].label}. ${DERATING_WORDS[requirements.derating].source}`,
    },
    {
      title: 'Prices and areas:',
      text: `orders of magnitude to compare by, for 100 pieces; parts alone, no board, no assembly${hasOwn ? '; some are entries of whoever made this study' : ''}.`,
    },
    {
      title: 'Failure rates:',
      text: `MIL-HDBK-217F Notice 2 at the nominal point, environment ${ENVIRONMENTS[assumptions.environment] ?? assumptions.environment}, quality ${assumptions.quality}. They compare designs and forecast nothing.`,
    },
    { title: 'Weights:', text: 'are a choice of whoever made this study; points mean nothing by themselves.' },
  ]
}

/** What was not judged and where no solution was found. */
export function openQuestions(comparison: Comparison): Caveat[] {
  return marginNotes(comparison).filter(({ title }) => !title.startsWith('Tightest'))
}
