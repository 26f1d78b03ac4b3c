/** The engine in a web worker of the page. */
import { expose, releaseProxy, transfer } from 'comlink'
import type { Remote } from 'comlink'
import {
  answer,
  changesFor,
  createSizer,
  createSlicer,
  inspect,
  mapCells,
  newHint,
  refine,
  reporting,
  spreadProblems,
  summariseBoards,
  tradeOf,
} from '../index.ts'
import { createHost, messageBreath } from './host.ts'
import type { EngineHost } from './host.ts'

const release = (onStep: unknown) => (onStep as Remote<() => void>)[releaseProxy]()
const sizer = createSizer()
const slice = createSlicer()
const hint = newHint()

/** A job that is over in one go. */
const atOnce = <I, R>(work: (input: I) => R) =>
  // oxlint-disable-next-line require-yield -- nothing to interrupt
  function* whole(input: I): Generator<never, R> {
    return work(input)
  }

const host = createHost(
  {
    answer: (study) => answer(study, sizer),
    inspect: ({ study, names }) => inspect(study, names, sizer),
    report: (study) => reporting(study, sizer),
    spreadProblems: (study) => spreadProblems(study, sizer),
    sampleBoards: atOnce(slice),
    mapCells: ({ question, cells }) => mapCells(question, cells, hint),
    refineMap: atOnce(({ columns, rows, codes, scores }) => refine(columns, rows, codes, scores)),
    summariseBoards: atOnce(({ runs, band }) => summariseBoards(runs, band)),
    trade: ({ study, end }) => tradeOf(study, end),
    changesFor,
  },
  messageBreath(),
  release,
)

expose({
  ...host,
  async run(...job) {
    const result = await host.run(...job)
    // whole runs of samples change hands; everything else is copied
    return result && 'outcomes' in result ? transfer(result, [result.values.buffer, result.outcomes.buffer]) : result
  },
} satisfies EngineHost)
