// @vitest-environment node
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { noticesText, packageFolder, readPackage } from '../../../web/build/notices.ts'
import { POLICY } from '../../../web/build/policy.ts'

const modules = fileURLToPath(new URL('../../../node_modules', import.meta.url))

describe('notices', () => {
  it('find the package of a module, scoped and nested ones included', () => {
    expect(packageFolder(`${modules}/comlink/dist/esm/comlink.mjs`)).toBe(`${modules}/comlink`)
    expect(packageFolder(`${modules}/@vue/shared/dist/shared.esm-bundler.js?x`)).toBe(`${modules}/@vue/shared`)
    expect(packageFolder('\0plugin-vue:export-helper')).toBeUndefined()
    expect(packageFolder('/somewhere/web/main.ts')).toBeUndefined()
  })

  it('carry the licence text of a package, fonts included', () => {
    expect(readPackage(`${modules}/comlink`).text).toContain('Apache License')
    const font = readPackage(`${modules}/@fontsource-variable/sofia-sans`)
    expect(font.text).toContain('SIL OPEN FONT LICENSE')
    const text = noticesText('MIT License, our own', [font])
    expect(text).toContain('MIT License, our own')
    expect(text).toContain(`${font.name} ${font.version}`)
    expect(text).toContain('SIL OPEN FONT LICENSE')
  })
})

describe('the content security policy', () => {
  it('lets no script run but our own files', () => {
    const directives = new Map(POLICY.split('; ').map((d) => [d.split(' ')[0], d.split(' ').slice(1)]))
    expect(directives.get('default-src')).toEqual(["'none'"])
    expect(directives.get('script-src')).toEqual(["'self'"])
    expect(directives.get('worker-src')).toEqual(["'self'"])
    expect(POLICY).not.toContain('unsafe-eval')
  })
})
