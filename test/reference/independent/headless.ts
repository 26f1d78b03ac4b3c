/** Comparisons as anybody gets them: printed by the headless run, in a process of its own that is stopped when it takes too long. */
import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { type Comparison, type Study, studyFile } from '../../../engine/index.ts'

const launcher = fileURLToPath(new URL('../../../engine/hosts/launch.js', import.meta.url))

/** Milliseconds after which a comparison counts as hung: fifty times what one takes. */
const PATIENCE = 60_000

/** One study in by standard input, one comparison out. Rejects where the run fails, is stopped or prints no JSON. */
function printedComparison(study: Study): Promise<Comparison> {
  return new Promise((settle, reject) => {
    const child = spawn(process.execPath, [launcher, '-'], { timeout: PATIENCE, killSignal: 'SIGKILL' })
    let printed = ''
    let complaint = ''
    child.stdout.setEncoding('utf8').on('data', (text: string) => (printed += text))
    child.stderr.setEncoding('utf8').on('data', (text: string) => (complaint += text))
    child.on('error', reject)
    child.on('close', (code, signal) => {
      if (code === 0) settle(JSON.parse(printed) as Comparison)
      else if (signal === null) reject(new Error(`${study.title}: exit code ${code}: ${complaint}`))
      else reject(new Error(`${study.title}: no comparison within ${PATIENCE / 1000} s`))
    })
    child.stdin.end(JSON.stringify(studyFile(study)))
  })
}

/** Starts on all studies at once, `atOnce` processes at a time, in their order. A failure shows where its answer is awaited. */
export function printedComparisons(studies: readonly Study[], atOnce = 2): Promise<Comparison>[] {
  const lanes: Promise<unknown>[] = Array.from({ length: atOnce }, () => Promise.resolve())
  return studies.map((study, k) => {
    const answer = lanes[k % atOnce]!.then(() => printedComparison(study))
    // a failed run must not keep the next from starting, nor count as unhandled while nobody has asked for it yet
    lanes[k % atOnce] = answer.catch(() => undefined)
    return answer
  })
}
