/**
 * A whole study in the fragment of an address, which no server gets to see: `#study=z…` is the study file without blanks,
 * in zlib's format (RFC 1950), whose checksum tells a damaged link from a sound one, and written in base64url (RFC 4648).
 * `#study=p…` is the same without zlib, where the browser has none.
 */
import { LARGEST_STUDY, studyFile } from '../../engine/requirements/index.ts'
import type { Study } from '../../engine/requirements/index.ts'
import { readStudyFile } from './check.ts'
import type { StudyRead } from './check.ts'

const START = '#study='
const DEFLATED = 'z'
const PLAIN = 'p'
/** What the streams of the browser call the format of RFC 1950. */
const FORMAT = 'deflate'

const DAMAGED = 'The link is damaged. It may have been cut off where it was copied or sent.'
const TOO_LARGE = 'The link holds more than any study; it is not read.'
const TOO_OLD = 'This browser cannot read a compressed link. Ask for the study as a file.'

export const isShareLink = (fragment: string): boolean => fragment.startsWith(START)

/** Thrown by the reader of a stream that gives more than it may. */
class TooLarge extends Error {}

/** Everything that a stream gives, at most `most` bytes: a small link may unfold to any size. */
async function readAll(stream: ReadableStream<Uint8Array>, most: number): Promise<Uint8Array> {
  const chunks: Uint8Array[] = []
  let length = 0
  const reader = stream.getReader()
  for (;;) {
    // oxlint-disable-next-line no-await-in-loop -- the chunks of a stream come one after another
    const { done, value } = await reader.read()
    if (done) break
    length += value.length
    if (length > most) {
      void reader.cancel().catch(() => {})
      throw new TooLarge()
    }
    chunks.push(value)
  }
  const all = new Uint8Array(length)
  let at = 0
  for (const chunk of chunks) {
    all.set(chunk, at)
    at += chunk.length
  }
  return all
}

type Packer = ReadableWritablePair<Uint8Array, BufferSource>

function through(bytes: Uint8Array<ArrayBuffer>, packer: Packer, most = Infinity): Promise<Uint8Array> {
  return readAll(new Blob([bytes]).stream().pipeThrough(packer), most)
}

/** A string of one character a byte, in pieces that a call takes as arguments. */
function binaryText(bytes: Uint8Array): string {
  let text = ''
  for (let i = 0; i < bytes.length; i += 8192) text += String.fromCharCode(...bytes.subarray(i, i + 8192))
  return text
}

const toBase64Url = (bytes: Uint8Array) =>
  btoa(binaryText(bytes)).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/u, '')

/** Throws on anything but base64url. */
function fromBase64Url(text: string): Uint8Array<ArrayBuffer> {
  if (!/^[\w-]*$/u.test(text)) throw new Error('not base64url')
  return Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), (c) => c.charCodeAt(0))
}

/** The fragment that holds the study. */
export async function shareFragment(study: Study): Promise<string> {
  const bytes = new TextEncoder().encode(JSON.stringify(studyFile(study)))
  if (typeof CompressionStream !== 'function') return START + PLAIN + toBase64Url(bytes)
  return START + DEFLATED + toBase64Url(await through(bytes, new CompressionStream(FORMAT)))
}

/** The whole address of this page with the study in it. */
export async function shareLink(study: Study, address = location.href): Promise<string> {
  return address.replace(/#.*$/u, '') + (await shareFragment(study))
}

async function unpack(fragment: string): Promise<{ text: string } | { problem: string }> {
  const packing = fragment.charAt(START.length)
  const packed = fragment.slice(START.length + 1)
  // four characters hold three bytes
  if (packed.length > (LARGEST_STUDY * 4) / 3 + 4) return { problem: TOO_LARGE }
  if (packing === DEFLATED && typeof DecompressionStream !== 'function') return { problem: TOO_OLD }
  try {
    if (packing !== DEFLATED && packing !== PLAIN) return { problem: DAMAGED }
    const bytes = fromBase64Url(packed)
    const plain = packing === PLAIN ? bytes : await through(bytes, new DecompressionStream(FORMAT), LARGEST_STUDY)
    return { text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(plain) }
  } catch (error) {
    return { problem: error instanceof TooLarge ? TOO_LARGE : DAMAGED }
  }
}

/** The study that a fragment holds, checked as a file is; else one sentence for each problem. Nothing is thrown. */
export async function readShareFragment(fragment: string): Promise<StudyRead> {
  const unpacked = await unpack(fragment)
  return 'problem' in unpacked ? { problems: [unpacked.problem] } : readStudyFile(unpacked.text)
}
