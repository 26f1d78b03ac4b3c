/** The documents: what they point to exists, and what they tell to type is what the project runs. */
import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { DEFAULTS } from '../../engine/requirements/fields.ts'

const path = (name: string): string => fileURLToPath(new URL(`../../${name}`, import.meta.url))
const read = (name: string): string => readFileSync(path(name), 'utf8')
const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> }

const DOCUMENTS = ['README.md', 'DEVELOPERS.md']

/** Targets of links and pictures that are not addresses elsewhere; an anchor is cut off. */
const linksOf = (text: string): string[] =>
  [...text.matchAll(/\]\(([^)\s]+)\)/g)]
    .map(([, target]) => target!)
    .filter((target) => !/^[a-z]+:/.test(target))
    .map((target) => target.replace(/#.*$/, ''))
    .filter((target) => target !== '')

/** Files and folders of this project that are named between backticks; a place for a name, such as `<name>`, is none. */
const pathsOf = (text: string): string[] =>
  [...text.matchAll(/`((?:engine|web|test|public|\.ci)\/[^`\s]*)`/g)]
    .map(([, target]) => target!)
    .filter((target) => !/[<*{…]/.test(target))

const anchorOf = (heading: string): string =>
  heading
    .toLowerCase()
    .replace(/[^\w\s-]/g, '')
    .trim()
    .replace(/\s/g, '-')

describe.each(DOCUMENTS)('%s', (name) => {
  const text = read(name)

  it('has links, and every one leads somewhere', () => {
    const links = linksOf(text)
    expect(links.length).toBeGreaterThan(0)
    expect(links.filter((link) => !existsSync(path(link)))).toEqual([])
  })

  it('names only files and folders that exist', () => {
    expect(pathsOf(text).filter((named) => !existsSync(path(named)))).toEqual([])
  })

  it('has a heading for every link into itself', () => {
    const anchors = [...text.matchAll(/^#+ (.+)$/gm)].map(([, heading]) => anchorOf(heading!))
    const wanted = [...text.matchAll(/\]\(#([^)]+)\)/g)].map(([, anchor]) => anchor!)
    expect(wanted.filter((anchor) => !anchors.includes(anchor))).toEqual([])
  })

  it('tells to run only scripts that there are', () => {
    const told = [...text.matchAll(/npm run (?:--silent )?([\w:]+)/g)].map(([, script]) => script!)
    expect(told.filter((script) => !(script in scripts))).toEqual([])
  })
})

describe('README.md', () => {
  const text = read('README.md')

  it.each(['npm ci && npm start', 'npm ci && npm test'])('says `%s`', (command) => expect(text).toContain(command))

  it('gives the defaults of a study file as they are', () => {
    // a formatter may widen the table's columns
    const rows = text.split('\n').map((line) => line.replace(/\s+/g, ' '))
    const row = (field: string): string => rows.find((line) => line.startsWith(`| \`${field}\``)) ?? ''
    expect(row('input.ripple')).toContain(`| ${DEFAULTS.ripple} V |`)
    expect(row('input.rippleFrequency')).toContain(`| ${DEFAULTS.rippleFrequency} Hz |`)
    expect(row('load.permanent')).toContain(`| ${DEFAULTS.permanent} |`)
    expect(row('limits.survivesShort')).toContain(`| ${DEFAULTS.survivesShort} |`)
    expect(row('parts.resistorSeries')).toContain(`| ${DEFAULTS.resistorSeries} |`)
    expect(row('parts.resistorTolerance')).toContain(`| ${DEFAULTS.resistorTolerance} |`)
    expect(row('parts.mounting')).toContain(`| ${DEFAULTS.mounting} |`)
    expect(row('derating')).toContain(`| ${DEFAULTS.derating} |`)
    for (const [figure, weight] of Object.entries(DEFAULTS.weights))
      expect(row('weights')).toContain(`\`${figure}\` ${weight}`)
  })
})
