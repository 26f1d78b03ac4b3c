// Runs the headless comparison straight from its sources: bundles them into the cache, then imports the bundle.
import { rmSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { build } from 'rolldown'

const input = fileURLToPath(new URL('headless.ts', import.meta.url))
// A file for each process: two runs at the same time must not read each other's half-written bundle.
const bundle = new URL(`../../node_modules/.cache/headless/${process.pid}.mjs`, import.meta.url)
process.on('exit', () => rmSync(bundle, { force: true }))
await build({ input, platform: 'node', logLevel: 'silent', output: { file: fileURLToPath(bundle) } })
await import(bundle.href)
