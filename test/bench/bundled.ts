/**
 * The engine bundled as the page and the headless run have it. The test runner rewrites every use of an import into a property
 * read, which made the solver's inner loop four times slower: that would be timed, and not the engine.
 */
import { rmSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { build } from 'rolldown'
import type * as Subject from './subject.ts'

const input = fileURLToPath(new URL('subject.ts', import.meta.url))
// a file of its own for each process; below node_modules the runner hands it to Node as it is
const file = new URL(`../../node_modules/.cache/bench/${process.pid}.mjs`, import.meta.url)
await build({ input, platform: 'node', logLevel: 'silent', output: { file: fileURLToPath(file) } })

export const subject = (await import(/* @vite-ignore */ file.href)) as typeof Subject
rmSync(file)
