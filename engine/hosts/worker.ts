/** The engine in a web worker of the page. */
import { expose, releaseProxy } from 'comlink'
import type { Remote } from 'comlink'
import { answer } from '../index.ts'
import { createHost, messageBreath } from './host.ts'

const release = (onStep: unknown) => (onStep as Remote<() => void>)[releaseProxy]()

expose(createHost(answer, messageBreath(), release))
