/**
 * Swaps one operator at a time in every sizing formula (+ and -, * and /) and runs the reference tests: each swap must turn
 * one of them red. Prints the survivors and exits 1 if there are any. Takes a few minutes:
 *
 *   node test/mutation/run.js [--published] [part of a formula]
 *
 * With `--published` only the published worked examples may turn red, not the results worked out by hand.
 */
import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { createServer } from 'vite'

const root = fileURLToPath(new URL('../..', import.meta.url))
const SWAP = { '+': '-', '-': '+', '*': '/', '/': '*' }
const AT_ONCE = 2

/** Every text that differs from `formula` by one binary operator. */
function mutantsOf(formula) {
  const mutants = []
  for (let k = 0; k < formula.length; k++) {
    const swapped = SWAP[formula[k]]
    const before = formula.slice(0, k).trimEnd().at(-1)
    // a sign, not an operator, where nothing stands before it
    if (swapped === undefined || before === undefined || '(,+-*/^'.includes(before)) continue
    mutants.push({ from: formula, to: formula.slice(0, k) + swapped + formula.slice(k + 1) })
  }
  return mutants
}

async function formulas() {
  const server = await createServer({
    root,
    configFile: false,
    appType: 'custom',
    logLevel: 'error',
    optimizeDeps: { noDiscovery: true },
    server: { middlewareMode: true, watch: null, ws: false },
  })
  const { FORMULAS } = await server.ssrLoadModule('/test/reference/worked/formulas.ts')
  const texts = [...new Set(FORMULAS.map((formula) => formula.text))]
  await server.close()
  return texts
}

/** How the reference tests take a mutant: `passed`, `failed`, or `units` where it does not even load. */
function trial(mutant) {
  return new Promise((resolve, reject) => {
    const child = spawn(
      process.execPath,
      ['node_modules/vitest/vitest.mjs', 'run', '--config', 'test/mutation/vitest.config.ts', '--reporter', 'dot'],
      {
        cwd: root,
        env: {
          ...process.env,
          MUTANT: mutant === undefined ? '' : JSON.stringify(mutant),
          PUBLISHED_ONLY: isPublishedOnly ? '1' : '',
        },
      },
    )
    let output = ''
    child.stdout.on('data', (text) => (output += text))
    child.stderr.on('data', (text) => (output += text))
    child.on('close', (code) => {
      if (code === 0) resolve('passed')
      else if (output.includes('adapt the mutation')) reject(new Error(output))
      else resolve(output.includes('no tests') ? 'units' : 'failed')
    })
  })
}

const isPublishedOnly = process.argv.includes('--published')
const wanted = process.argv.slice(2).find((word) => word !== '--published') ?? ''
const mutants = (await formulas()).filter((text) => text.includes(wanted)).flatMap(mutantsOf)
const untouched = await trial(undefined)
if (untouched !== 'passed') throw new Error('the reference tests fail without any mutation')

const tally = { units: 0, failed: 0 }
const survivors = []
const queue = mutants.values()
const worker = async () => {
  for (const mutant of queue) {
    const outcome = await trial(mutant)
    if (outcome === 'passed') survivors.push(mutant)
    else tally[outcome]++
  }
}
await Promise.all(Array.from({ length: AT_ONCE }, worker))
console.log(
  `${mutants.length} mutants: ${tally.failed} turned a reference test red, ${tally.units} did not pass the unit check.`,
)
for (const { from, to } of survivors) console.log(`survived: ${from}  ->  ${to}`)
process.exitCode = survivors.length > 0 ? 1 : 0
