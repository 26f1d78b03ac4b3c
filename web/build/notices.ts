/** Writes `notices.txt` beside the built page: the licence texts of everything that was bundled, and our own first. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join, sep } from 'node:path'
import type { Plugin } from 'vite'

interface Bundled {
  name: string
  version: string
  licence: string
  text: string
}

const LICENCE_FILE = /^(licen[cs]e|copying|notice)([.-].*)?$/i

/** The folder of the package that a module belongs to; undefined for our own modules and virtual ones. */
export function packageFolder(moduleId: string): string | undefined {
  const path = moduleId.replaceAll('\0', '').split('?')[0]!
  const marker = `${sep}node_modules${sep}`
  const at = path.lastIndexOf(marker)
  if (at < 0) return undefined
  const rest = path.slice(at + marker.length).split(sep)
  const folder = path.slice(0, at + marker.length) + rest.slice(0, rest[0]!.startsWith('@') ? 2 : 1).join(sep)
  return existsSync(join(folder, 'package.json')) ? folder : undefined
}

/** Name, version and licence texts of an installed package. Throws where it has neither a licence file nor names one. */
export function readPackage(folder: string): Bundled {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
    name: string
    version: string
    license?: string
  }
  const files = readdirSync(folder).filter((file) => LICENCE_FILE.test(file))
  if (files.length === 0 && !license) throw new Error(`notices: ${name} ${version} states no licence`)
  const text = files
    .toSorted()
    .map((file) => readFileSync(join(folder, file), 'utf8').trim())
    .join('\n\n')
  return { name, version, licence: license ?? 'see text', text }
}

/** The whole file: a list of what is in it, then every text. */
export function noticesText(own: string, packages: readonly Bundled[]): string {
  const line = '-'.repeat(72)
  const sections = packages.map((p) =>
    [line, `${p.name} ${p.version} (${p.licence})`, line, '', p.text || `Licence: ${p.licence}`].join('\n'),
  )
  return [
    'Wattfork',
    '',
    own.trim(),
    '',
    `Wattfork contains the following ${packages.length} packages, each under its own licence:`,
    ...packages.map((p) => `  ${p.name} ${p.version} (${p.licence})`),
    '',
    ...sections,
    '',
  ].join('\n')
}

/**
 * Two plugins that share one list: the worker is bundled by a build of its own, so `worker` goes into Vite's worker plugins
 * and `page` into the page's, which writes the file at the end.
 */
export function notices(ownLicence: string): { page: Plugin; worker: Plugin } {
  const folders = new Set<string>()
  const collect = (ids: Iterable<string>) => {
    for (const id of ids) {
      const folder = packageFolder(id)
      if (folder) folders.add(folder)
    }
  }
  return {
    worker: {
      name: 'wattfork-notices-worker',
      apply: 'build',
      buildEnd() {
        collect(this.getModuleIds())
      },
    },
    page: {
      name: 'wattfork-notices',
      apply: 'build',
      generateBundle() {
        collect(this.getModuleIds())
        const packages = [...folders].map(readPackage).toSorted((a, b) => (a.name < b.name ? -1 : 1))
        this.emitFile({
          type: 'asset',
          fileName: 'notices.txt',
          source: noticesText(readFileSync(ownLicence, 'utf8'), packages),
        })
      },
    },
  }
}
