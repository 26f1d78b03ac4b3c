// @vitest-environment node
import { deflateSync } from 'node:zlib'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { randomOf } from '../../../engine/random/index.ts'
import { studyFile } from '../../../engine/requirements/index.ts'
import { readShareFragment, shareFragment, shareLink } from '../../../web/store/shareLink.ts'
import { anyStudy } from '../../engine/requirements/study.ts'
import { generateStudies } from '../../fixtures/studies/generate.ts'

const link = (text: string | Uint8Array) => `#study=z${deflateSync(text).toString('base64url')}`
const problems = async (fragment: string) => ((await readShareFragment(fragment)).problems ?? []).join(' ')

afterEach(() => vi.unstubAllGlobals())

describe('a share link', () => {
  it('brings 1,000 random studies back exactly', async () => {
    // half of them as engineers write them, half with every number, text and key at random
    const studies = [...generateStudies(71, 500), ...Array.from({ length: 500 }, (_, k) => anyStudy(randomOf(72, k)))]
    const read = await Promise.all(
      studies.map(async (study) => (await readShareFragment(await shareFragment(study))).study),
    )
    expect(read.length).toBe(1000)
    expect(read).toEqual(studies)
    // toEqual overlooks keys that are undefined
    expect(read.map((study) => JSON.stringify(study))).toEqual(studies.map((study) => JSON.stringify(study)))
  }, 30_000)

  it('is short enough to be sent', async () => {
    const lengths = await Promise.all(generateStudies(73, 50).map(async (study) => (await shareFragment(study)).length))
    expect(Math.max(...lengths)).toBeLessThan(700)
  })

  it('holds nothing that an address or a message would change', async () => {
    const fragments = await Promise.all(generateStudies(74, 50).map((study) => shareFragment(study)))
    for (const fragment of fragments) expect(fragment).toMatch(/^#study=z[\w-]+$/u)
  })

  it('takes the place of the fragment that is there', async () => {
    const [study] = generateStudies(75, 1)
    expect(await shareLink(study!, 'https://here.example/page?x=1#heat')).toMatch(
      /^https:\/\/here\.example\/page\?x=1#study=z/u,
    )
  })

  it('is written without compression where the browser has none, and read again', async () => {
    const [study] = generateStudies(76, 1)
    vi.stubGlobal('CompressionStream', undefined)
    vi.stubGlobal('DecompressionStream', undefined)
    const fragment = await shareFragment(study!)
    expect(fragment).toMatch(/^#study=p/u)
    expect((await readShareFragment(fragment)).study).toEqual(study)
    expect(await problems(link('{}'))).toContain('cannot read a compressed link')
  })

  it('that is damaged says so', async () => {
    const [study] = generateStudies(77, 1)
    const whole = await shareFragment(study!)
    const cut = whole.slice(0, -20)
    for (const bad of [
      cut,
      '#study=',
      '#study=z',
      '#study=q123',
      '#study=z%20',
      '#study=p_',
      link(new Uint8Array([0xff, 0xfe])),
    ])
      expect(await problems(bad), bad.slice(0, 30)).toMatch(/damaged|empty/u)
  })

  it('with one character changed never becomes another study', async () => {
    const [study] = generateStudies(79, 1)
    const whole = await shareFragment(study!)
    const at = Array.from({ length: whole.length - 10 }, (_, i) => 8 + i)
    const spoiled = at.map((i) => whole.slice(0, i) + (whole[i] === 'A' ? 'B' : 'A') + whole.slice(i + 1))
    const read = await Promise.all(spoiled.map((fragment) => readShareFragment(fragment)))
    const opened = read.flatMap(({ study: other }) => (other ? [JSON.stringify(other)] : []))
    expect(opened.filter((text) => text !== JSON.stringify(study))).toEqual([])
    // the last character may hold bits that are not used
    expect(opened.length).toBeLessThan(4)
  })

  it('is checked like a file', async () => {
    const [study] = generateStudies(78, 1)
    expect(await problems(link(JSON.stringify({ ...studyFile(study!), novelty: 1 })))).toContain('novelty')
    expect(await problems(link('[]'))).toContain('list')
  })

  it('that unfolds to more than any study is not unfolded', async () => {
    const bomb = link(Buffer.alloc(200e6, ' '))
    expect(bomb.length).toBeLessThan(300_000)
    const before = process.memoryUsage().arrayBuffers
    expect(await problems(bomb)).toContain('more than any study')
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(50e6)
    expect(await problems(`#study=p${'A'.repeat(2e6)}`)).toContain('more than any study')
  })
})
