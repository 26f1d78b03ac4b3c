/** The engine in a web worker of the page. */
import { expose, releaseProxy } from 'comlink'
import type { Remote } from 'comlink'
import { answer, createSizer, inspect } from '../index.ts'
import { createHost, messageBreath } from './host.ts'

const release = (onStep: unknown) => (onStep as Remote<() => void>)[releaseProxy]()
const sizer = createSizer()

expose(
  createHost(
    {
      answer: (study) => answer(study, sizer),
      inspect: ({ study, names }) => inspect(study, names, sizer),
    },
    messageBreath(),
    release,
  ),
)
