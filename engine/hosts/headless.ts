/** The headless run: one study in, one comparison out as JSON. Exit code 0 when it could compare, 2 when the study is invalid. */
import { createReadStream } from 'node:fs'
import { stat } from 'node:fs/promises'
import { resolve } from 'node:path'
import { report } from '../index.ts'
import { LARGEST_STUDY, parseStudyText, sizeIssue } from '../requirements/index.ts'

type Read = { text: string } | { problem: string }

/** Reads `path`, or standard input for `-`. No more is read than a study may be long. */
async function readStudy(path: string): Promise<Read> {
  // npm changes into the project's folder; INIT_CWD is where the user stands.
  const file = resolve(process.env['INIT_CWD'] ?? '', path)
  const chunks: Buffer[] = []
  let bytes = 0
  try {
    if (path !== '-') {
      const { size } = await stat(file)
      if (size > LARGEST_STUDY) return { problem: sizeIssue(size).message }
    }
    const stream = path === '-' ? process.stdin : createReadStream(file)
    for await (const chunk of stream as AsyncIterable<Buffer>) {
      chunks.push(chunk)
      bytes += chunk.length
      if (bytes > LARGEST_STUDY) return { problem: sizeIssue(bytes, true).message }
    }
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(Buffer.concat(chunks)) }
  } catch (error) {
    return { problem: readProblem(path, error) }
  }
}

function readProblem(path: string, error: unknown): string {
  const shown = path === '-' ? 'Standard input' : JSON.stringify(path)
  const code = error instanceof Error && 'code' in error ? error.code : undefined
  if (code === 'ENOENT') return `${shown} does not exist.`
  if (code === 'EISDIR') return `${shown} is a folder; the path of a study file is wanted.`
  if (code === 'EACCES') return `${shown} may not be read.`
  if (code === 'ERR_ENCODING_INVALID_ENCODED_DATA') return `${shown} is not UTF-8 text.`
  return `${shown} cannot be read: ${error instanceof Error ? error.message : String(error)}`.replace(/\s+/gu, ' ')
}

/** Writes and waits until the system has taken all of it: a comparison is larger than a pipe's buffer. */
function write(stream: NodeJS.WriteStream, text: string): Promise<void> {
  return new Promise((settle, reject) => {
    stream.write(text, (error) => (error ? reject(error) : settle()))
  })
}

async function refuse(problems: readonly string[]): Promise<void> {
  process.exitCode = 2
  await write(process.stderr, problems.map((problem) => `${problem}\n`).join(''))
}

async function run(paths: readonly string[]): Promise<void> {
  const [path] = paths
  if (path === undefined || paths.length > 1) {
    return refuse(['One path is wanted: npm run --silent compare -- PATH, or - for standard input.'])
  }
  const read = await readStudy(path)
  if ('problem' in read) return refuse([read.problem])
  const checked = parseStudyText(read.text)
  if (!checked.ok) return refuse(checked.issues.map((issue) => issue.message))
  await write(process.stdout, `${JSON.stringify(report(checked.study), null, 2)}\n`)
}

// The reader of a pipe may leave early (`| head`): that is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error
})
await run(process.argv.slice(2)).catch((error: unknown) => {
  if (!(error instanceof Error && 'code' in error && error.code === 'EPIPE')) throw error
})
