/** Who may import whom. The order is the one that the contributor's guide gives; a cycle between folders cannot arise under it. */
import { readFileSync, readdirSync } from 'node:fs'
import { dirname, join, posix, relative, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'

const root = fileURLToPath(new URL('../..', import.meta.url))

/** Folders of the engine; each imports only from folders before it. The door and the hosts come last. */
const ORDER = [
  'once.ts',
  'units',
  'formula',
  'random',
  'requirements',
  'devices',
  'parts',
  'solve',
  'topologies',
  'analyses',
  'figures',
  'sizing',
  'compare',
  'explore',
  'index.ts',
  'hosts',
]
/** Siblings of one folder that never know each other; only the folder's own `index.ts` lists them. */
const TOPOLOGIES = ['shunt', 'series-pass', 'feedback']
const ENGINE_VALUES_FOR_WEB = ['units', 'requirements']
/** Read by both sides; it must import nothing, or the page would carry the engine twice. */
const SHARED_FILE = 'engine/explore/cells.ts'
const COMLINK_FILES = ['web/engineClient.ts', 'engine/hosts/worker.ts']
const ECHARTS_FILES = ['web/charts/ChartPanel.vue', 'web/charts/echarts.ts', 'web/charts/echartsSvg.ts']

interface Import {
  readonly file: string
  /** A path from the repository's root for a relative specifier, else the package's specifier. */
  readonly target: string
  readonly isType: boolean
}

/** Static imports, re-exports, and imports at run time, in scripts and in the scripts of components. */
const IMPORT =
  /(?:^|\n)[ \t]*(?:import|export)\s+(type\s)?([^'"();=]*?\sfrom\s+)?['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]|new URL\(\s*['"](\.[^'"]+)['"],\s*import\.meta\.url/g

function importsOf(file: string, text: string): Import[] {
  return [...text.matchAll(IMPORT)].map(([, type, clause = '', named, atRunTime, address]) => {
    const specifier = (named ?? atRunTime ?? address)!
    const names = /\{([^}]*)\}/
      .exec(clause)?.[1]
      ?.split(',')
      .filter((name) => name.trim() !== '')
    const isOnlyTypes =
      names !== undefined && /^\s*\{/.test(clause) && names.every((name) => name.trim().startsWith('type '))
    const target = specifier.startsWith('.') ? posix.join(posix.dirname(file), specifier) : specifier
    return { file, target, isType: type !== undefined || isOnlyTypes }
  })
}

const sources = (folder: string): string[] =>
  readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(ts|js|vue)$/.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join('/'))

const read = (folder: string): Import[] =>
  sources(folder).flatMap((file) => importsOf(file, readFileSync(join(root, file), 'utf8')))

const engine = read('engine')
const web = read('web')

const isOf = (target: string, name: string): boolean => target === name || target.startsWith(`${name}/`)
const told = ({ file, target }: Import): string => `${file} imports ${target}`

/** The folder of the engine that a path lies in; `index.ts` for the door; undefined outside the engine. */
const folderOf = (path: string): string | undefined => /^engine\/([^/]+)/.exec(path)?.[1]

/** Imports of the engine that the order forbids. */
const outOfOrder = (imports: readonly Import[]): string[] =>
  imports
    .filter(({ file, target }) => {
      if (isOf(target, 'web') || isOf(target, 'test')) return true
      const to = folderOf(target)
      return to !== undefined && ORDER.indexOf(to) > ORDER.indexOf(folderOf(file)!)
    })
    .map(told)

const betweenTopologies = (imports: readonly Import[]): string[] =>
  imports
    .filter(({ file, target }) => {
      const [from, to] = [file, target].map((path) => /^engine\/topologies\/([^/]+)\//.exec(path)?.[1] ?? '')
      if (to === undefined || !TOPOLOGIES.includes(to) || from === to) return false
      return file !== 'engine/topologies/index.ts'
    })
    .map(told)

const forbiddenForWeb = (imports: readonly Import[]): string[] =>
  imports
    .filter(({ file, target, isType }) => {
      const folder = folderOf(target)
      if (folder === undefined || isType || ENGINE_VALUES_FOR_WEB.includes(folder) || target === SHARED_FILE)
        return false
      // the client names the worker's file by address, it does not import it
      return !(file === 'web/engineClient.ts' && target === 'engine/hosts/worker.ts')
    })
    .map(told)

const outside = (imports: readonly Import[], name: string, allowed: readonly string[]): string[] =>
  imports.filter(({ file, target, isType }) => !isType && isOf(target, name) && !allowed.includes(file)).map(told)

describe('imports', () => {
  it('lists every folder of the engine in its order', () => {
    const found = readdirSync(join(root, 'engine')).filter((name) => !name.endsWith('.json'))
    expect(found.toSorted()).toEqual(ORDER.toSorted())
  })

  it('in the engine point only to earlier folders', () => expect(outOfOrder(engine)).toEqual([]))

  it('never join two topologies', () => expect(betweenTopologies(engine)).toEqual([]))

  it('of the page take values only from units, requirements and the codes of a map', () =>
    expect(forbiddenForWeb(web)).toEqual([]))

  it('of the file that page and engine share are none', () =>
    expect(engine.filter(({ file }) => file === SHARED_FILE)).toEqual([]))

  it('of Comlink are in the client and the worker alone', () =>
    expect(outside([...engine, ...web], 'comlink', COMLINK_FILES)).toEqual([]))

  it('of ECharts are in the chart panel and its loaders alone', () =>
    expect(outside([...engine, ...web], 'echarts', ECHARTS_FILES)).toEqual([]))

  it('carry the ending of their file', () => {
    const bare = [...engine, ...web].filter(({ target }) => /^(engine|web)\//.test(target) && !/\.\w+$/.test(target))
    expect(bare.map(told)).toEqual([])
  })
})

describe('the guard itself', () => {
  it('finds every way to import', () => {
    const text = [
      "import { a } from './a.ts'",
      "import type { B } from './b.ts'",
      "import { type C } from './c.ts'",
      "import './d.ts'",
      "export * from './e.ts'",
      'import {',
      '  type F,',
      '  g,',
      "} from './f.ts'",
      "const h = await import('./h.ts')",
      "new Worker(new URL('./i.ts', import.meta.url))",
    ].join('\n')
    const found = importsOf('engine/units/x.ts', text)
    expect(found.map(({ target }) => dirname(target) + target.slice(target.lastIndexOf('/')))).toEqual(
      ['a', 'b', 'c', 'd', 'e', 'f', 'h', 'i'].map((name) => `engine/units/${name}.ts`),
    )
    expect(found.filter(({ isType }) => isType).map(({ target }) => target)).toEqual([
      'engine/units/b.ts',
      'engine/units/c.ts',
    ])
  })

  it('refuses a step back up the order, a sibling topology, and values in the page', () => {
    expect(outOfOrder(importsOf('engine/units/x.ts', "import { solve } from '../solve/index.ts'"))).toHaveLength(1)
    expect(outOfOrder(importsOf('engine/units/x.ts', "import { x } from '../../web/main.ts'"))).toHaveLength(1)
    expect(
      betweenTopologies(importsOf('engine/topologies/shunt/x.ts', "import { PASS } from '../feedback/loop.ts'")),
    ).toHaveLength(1)
    expect(forbiddenForWeb(importsOf('web/x.ts', "import { compare } from '../engine/index.ts'"))).toHaveLength(1)
    expect(forbiddenForWeb(importsOf('web/x.ts', "import type { Answer } from '../engine/index.ts'"))).toHaveLength(0)
    expect(outside(importsOf('web/x.ts', "import { wrap } from 'comlink'"), 'comlink', COMLINK_FILES)).toHaveLength(1)
    expect(outside(importsOf('web/x.ts', "import('echarts/core')"), 'echarts', ECHARTS_FILES)).toHaveLength(1)
  })
})
