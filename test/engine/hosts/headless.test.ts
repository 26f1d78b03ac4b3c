/** The headless run as its users see it: a process with a path, standard input, two streams and an exit code. */
import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Report } from '../../../engine/compare/compare.ts'
import type { Comparison } from '../../../engine/compare/comparison.ts'
import { checkStudy } from '../../../engine/requirements/index.ts'

const launcher = fileURLToPath(new URL('../../../engine/hosts/launch.js', import.meta.url))

// S2 of the hand-checked scenarios
const STUDY = {
  format: 'wattfork-study',
  version: 1,
  title: 'Series-pass scenario',
  requirements: {
    input: { min: 18, nominal: 24, max: 30 },
    output: { voltage: 12, tolerance: 0.15 },
    load: { min: 0.005, nominal: 0.04, max: 0.08 },
    ambient: { min: 0, nominal: 25, max: 50 },
  },
}

let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'wattfork-headless-'))
  writeFileSync(join(folder, 'good.study.json'), JSON.stringify(STUDY))
  writeFileSync(join(folder, 'bad.study.json'), JSON.stringify({ ...STUDY, colour: 'red', version: 0 }))
  writeFileSync(
    join(folder, 'pins.study.json'),
    JSON.stringify({ ...STUDY, pins: { shunt: { D1: '1N4739' }, feedback: { R9: 470 } } }),
  )
  writeFileSync(join(folder, 'empty.study.json'), '')
  writeFileSync(join(folder, 'latin.study.json'), Buffer.from([0x22, 0xe9, 0x22]))
  writeFileSync(join(folder, 'huge.study.json'), '')
  truncateSync(join(folder, 'huge.study.json'), 50e6)
})
afterAll(() => rmSync(folder, { recursive: true }))

interface Options {
  input?: string | Buffer
  /** Milliseconds until standard output is read. */
  readAfter?: number
  /** Ends the process with its test, a timeout included. */
  signal?: AbortSignal
}

interface Outcome {
  code: number | null
  stdout: string
  stderr: string
}

/** Runs the launcher from the folder of the studies, as npm would: from elsewhere, with INIT_CWD set. */
function run(args: readonly string[], { input = '', readAfter = 0, signal }: Options = {}): Promise<Outcome> {
  return new Promise((settle, reject) => {
    const child = spawn(process.execPath, [launcher, ...args], {
      env: { ...process.env, INIT_CWD: folder },
      ...(signal && { signal }),
    })
    const outcome = { code: null as number | null, stdout: '', stderr: '' }
    child.on('error', reject)
    child.on('close', (code) => settle({ ...outcome, code }))
    child.stderr.on('data', (chunk: Buffer) => (outcome.stderr += chunk.toString()))
    setTimeout(
      () => child.stdout.setEncoding('utf8').on('data', (chunk: string) => (outcome.stdout += chunk)),
      readAfter,
    )
    // a run that refuses early closes its input
    child.stdin.on('error', () => {})
    child.stdin.end(input)
  })
}

describe('a study that is not valid', { timeout: 30_000 }, () => {
  test.each([
    ['has two problems', ['bad.study.json'], [/^colour is not a known key/u, /^version is 0; it must be 1\.$/u]],
    [
      'pins what is not there',
      ['pins.study.json'],
      [/^pins\.feedback\.R9 is no part of any variant; /u, /^pins\.shunt\.D1 is the text "1N4739"; it must be /u],
    ],
    ['is empty', ['empty.study.json'], [/^The study is empty/u]],
    ['is not there', ['absent.study.json'], [/^"absent\.study\.json" does not exist\.$/u]],
    ['is a folder', ['.'], [/^"\." is a folder/u]],
    ['is no UTF-8', ['latin.study.json'], [/^"latin\.study\.json" is not UTF-8 text\.$/u]],
    ['is too large', ['huge.study.json'], [/^The study is 50\.0 MB long; at most 1\.00 MB is read\.$/u]],
    ['has no path', [], [/^One path is wanted/u]],
    ['has two paths', ['good.study.json', 'bad.study.json'], [/^One path is wanted/u]],
  ])('%s: exit code 2, one line a problem, nothing on standard output', async (_, args, lines) => {
    const { code, stdout, stderr } = await run(args)
    expect([code, stdout]).toEqual([2, ''])
    const found = stderr.split('\n')
    expect(found.pop()).toBe('')
    expect(found).toHaveLength(lines.length)
    lines.forEach((line, k) => expect(found[k]).toMatch(line))
  })

  test('is refused from standard input too', async () => {
    const { code, stdout, stderr } = await run(['-'], { input: '{"format": "wattfork-study", "version": 3}' })
    expect([code, stdout]).toEqual([2, ''])
    expect(stderr).toMatch(/^version is 3, newer than 1, .*\n$/u)
  })

  test('an endless standard input is cut off at the limit', async () => {
    const { code, stdout, stderr } = await run(['-'], { input: Buffer.alloc(20e6, ' ') })
    expect([code, stdout]).toEqual([2, ''])
    expect(stderr).toMatch(/^The study is at least 1\.\d\d MB long; at most 1\.00 MB is read\.\n$/u)
  })
})

describe('a valid study', { timeout: 60_000 }, () => {
  test('gives one comparison on standard output, whole, however late it is read', async ({ signal }) => {
    const { code, stdout, stderr } = await run(['good.study.json'], { readAfter: 1500, signal })
    expect([code, stderr]).toEqual([0, ''])
    const comparison = JSON.parse(stdout) as Comparison
    const checked = checkStudy(STUDY)
    expect(checked).toMatchObject({
      ok: true,
      study: { title: comparison.title, requirements: comparison.requirements },
    })
    expect([comparison.format, comparison.version]).toEqual(['wattfork-comparison', 1])
    expect(comparison.designs.map((design) => design.topology)).toEqual(['shunt', 'series-pass', 'feedback'])
    expect(stdout).toBe(`${JSON.stringify(comparison, null, 2)}\n`)
    // larger than the 64 kB that a pipe holds, or waiting would prove nothing
    expect(stdout.length).toBeGreaterThan(65_536)
  })

  test('is sized around its pins, and says what each of them costs', async ({ signal }) => {
    const pins = { 'series-pass': { R1: 1111 } }
    const { code, stdout } = await run(['-'], { input: JSON.stringify({ ...STUDY, pins }), signal })
    expect(code).toBe(0)
    const printed = JSON.parse(stdout) as Report
    expect(printed.pins).toEqual(pins)
    expect(printed.designs[1]!.parts.find(({ id }) => id === 'R1')!.value).toBe(1111)
    expect([0, 1, 2].map((k) => printed.designs[k]!.pinCost?.map(({ part }) => part))).toEqual([[], ['R1'], []])
  })

  test('gives the same from standard input, and when two run at once', async ({ signal }) => {
    const [fromFile, fromInput] = await Promise.all([
      run(['good.study.json'], { signal }),
      run(['-'], { input: JSON.stringify(STUDY), signal }),
    ])
    expect(fromInput.code).toBe(0)
    expect(fromInput.stdout).toBe(fromFile.stdout)
  })
})
