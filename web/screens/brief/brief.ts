/**
 * What the brief says: two pages for whoever decides and was not there. Plain data from one proven answer and its details; the
 * sheet on screen, the print and the file are drawn from it and add nothing.
 */
import type { Answer, Design } from '../../../engine/compare/comparison.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import type { Requirements } from '../../../engine/requirements/study.ts'
import { capital, formatQuantity } from '../../../engine/units/index.ts'
import { type DesignColumns, designColumns } from '../../charts/columns.ts'
import { rangeText } from '../../panels/figures/rows.ts'
import { largestInput } from '../../panels/flow/balance.ts'
import { scaleFor } from '../../panels/flow/geometry.ts'
import { margins } from '../../panels/lane/checks.ts'
import { reasons } from '../../panels/lane/reasons.ts'
import { ambientSeries, inputSeries, limitParts, loadSeries, outputSeries } from '../../panels/requirements/sentence.ts'
import { CHOICES } from '../../store/fields.ts'
import { readPath } from '../../store/check.ts'
import type { IsAllowed } from './changes.ts'
import { type Caveat, assumptionsOf, firstCautions, furtherCautions } from './caveats.ts'
import { type PlotPicture, decidingPlots } from './plots.ts'
import { type Passage, decisive, firstSentence, recommendationOf } from './recommendation.ts'
import { type BriefRow, decidingRows, pointsText, scoreCells } from './rows.ts'
import { nameOf, standingsOf } from './standings.ts'

export interface BriefLane {
  readonly design: Design
  /** Points, where it is ranked. */
  readonly points?: string
  readonly isChosen: boolean
}

export interface Brief {
  /** Of the study. */
  readonly title: string
  /** In words: "26 November 2026". */
  readonly date: string
  /** Address of the page that made it. */
  readonly link: string
  readonly finding: string
  readonly lead: string
  readonly requirements: Requirements
  /** The four ranges. */
  readonly asked: readonly { readonly label: string; readonly value: string; readonly note: string }[]
  /** Limits, parts and derating in one sentence. */
  readonly limits: string
  readonly lanes: readonly BriefLane[]
  readonly rows: readonly BriefRow[]
  /** One a design; absent where nothing is weighed. */
  readonly scores?: readonly string[]
  readonly why: Passage
  readonly change: Passage
  readonly plots: readonly PlotPicture[]
  readonly cautions: readonly Caveat[]
  // --- the second page
  readonly flows: { readonly columns: readonly DesignColumns[]; readonly scale: number; readonly input: number }
  readonly morePlots: readonly PlotPicture[]
  /** Shortfalls of those that fall short; margins of those that meet. */
  readonly standing: readonly Passage[]
  readonly assumptions: readonly Caveat[]
  readonly moreCautions: readonly Caveat[]
  /** Words of whoever keeps the study. */
  readonly notes?: string
}

export interface BriefSetting {
  readonly date: Date
  /** Address that leads back to the page. */
  readonly link: string
  readonly isAllowed: IsAllowed
  readonly notes?: string | undefined
}

/** Plots on the first page, and on both. */
const FRONT_PLOTS = 2
const ALL_PLOTS = 4
/** Margins and shortfalls of each design on the second page. */
const MOST_STANDING = 3
/** Characters of notes that two pages have room for. */
const MOST_NOTES = 700

const DATE: Intl.DateTimeFormatOptions = { day: 'numeric', month: 'long', year: 'numeric' }

/** Undefined until every corner is proven: before that nothing may be recommended. */
export function briefOf(answer: Answer, inspection: Inspection, setting: BriefSetting): Brief | undefined {
  if (answer.stage !== 'proven') return undefined
  const { comparison } = answer
  const { designs, requirements } = comparison
  const standings = standingsOf(comparison)
  const { finding, lead, why, change, chosen } = recommendationOf(answer, standings, setting.isAllowed)
  const columns = designColumns(answer)
  const plots = decidingPlots(answer, columns, decisive(standings), ALL_PLOTS)
  const cautions = firstCautions(comparison, inspection, chosen)
  const scores = scoreCells(answer, standings)
  const { input } = requirements
  return {
    title: comparison.title,
    date: setting.date.toLocaleDateString('en-GB', DATE),
    link: setting.link,
    finding,
    lead,
    requirements,
    asked: askedOf(answer),
    limits: limitsOf(answer),
    lanes: designs.map((design, k) => {
      const ranked = standings.meeting.find(({ index }) => index === k)
      return {
        design,
        isChosen: chosen.includes(design),
        ...(ranked && scores ? { points: pointsText(ranked.entry.score) } : {}),
      }
    }),
    rows: decidingRows(answer, standings),
    ...(scores ? { scores } : {}),
    why,
    change,
    plots: plots.slice(0, FRONT_PLOTS),
    cautions,
    flows: { columns, scale: scaleFor(largestInput(columns, input.max, input.max)), input: input.max },
    morePlots: plots.slice(FRONT_PLOTS),
    standing: designs.map((design) => standingOf(design, requirements)),
    assumptions: assumptionsOf(comparison),
    moreCautions: furtherCautions(comparison, inspection, chosen, cautions),
    ...(setting.notes ? { notes: shortened(setting.notes) } : {}),
  }
}

function askedOf({ comparison }: Answer): Brief['asked'] {
  const { input, output, load } = comparison.requirements
  const half = output.voltage * output.tolerance
  return [
    {
      label: 'Input',
      value: inputSeries(comparison),
      note: input.ripple > 0 ? `ripple ${formatQuantity(input.ripple, 'V')} peak to peak` : 'no ripple',
    },
    {
      label: 'Output',
      value: outputSeries(comparison),
      note: `${rangeText(output.voltage - half, output.voltage + half, 'V')} allowed`,
    },
    { label: 'Load', value: loadSeries(comparison), note: load.permanent ? 'permanent' : 'can be taken off' },
    { label: 'Ambient', value: ambientSeries(comparison), note: 'still air' },
  ]
}

function limitsOf({ comparison }: Answer): string {
  const limits = limitParts(comparison).map(({ before, value }) => `${before} ${value}`.trim())
  const choice = (path: string) =>
    CHOICES.find((field) => field.path === path)?.choices.find(({ value }) => value === readPath(comparison, path))
      ?.label ?? ''
  const parts = `resistors ${choice('parts.resistorSeries')} ${choice('parts.resistorTolerance')}, ${choice('parts.mounting')}`
  const derating = `derating ${choice('derating')}`
  return `${capital([...(limits.length > 0 ? limits : ['no further limits']), parts, derating].join('; '))}.`
}

/** What a design lacks in full, or where it is tightest. */
function standingOf(design: Design, requirements: Requirements): Passage {
  const name = capital(nameOf(design))
  if (design.verdict !== 'meets')
    return {
      title: `${name} falls short`,
      items: reasons(design, requirements)
        .slice(0, MOST_STANDING)
        .map(({ text }) => firstSentence(text)),
    }
  return {
    title: `${name}, tightest first`,
    items: margins(design, requirements)
      .slice(0, MOST_STANDING)
      .map(({ text }) => `${capital(text)}.`),
  }
}

/** Whole words, and where the rest is. */
function shortened(notes: string): string {
  if (notes.length <= MOST_NOTES) return notes
  const cut = notes.slice(0, MOST_NOTES)
  return `${cut.slice(0, Math.max(cut.lastIndexOf(' '), MOST_NOTES / 2))} … (the rest is in the study)`
}
