/**
 * Runs the reference tests of the sizing formulas against one mutant. `MUTANT` holds `{ "from": text, "to": text }`; the one
 * formula text is exchanged as it enters the parser, so no file of the engine knows of it.
 */
import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const isPublishedOnly = (process.env['PUBLISHED_ONLY'] ?? '') !== ''
const mutant = process.env['MUTANT'] ?? ''
const OPENING = 'export function parseFormula('

export default defineConfig({
  plugins: [
    {
      name: 'exchange-one-formula',
      enforce: 'pre',
      transform(code, id) {
        if (mutant === '' || !id.endsWith('/engine/formula/parse.ts')) return undefined
        if (!code.includes(OPENING)) throw new Error('the parser opens differently now: adapt the mutation to it')
        const exchange = `
          const isPublishedOnly = (process.env['PUBLISHED_ONLY'] ?? '') !== ''
const mutant = ${mutant}
          export function parseFormula(text: string) {
            return parseAsWritten(text === mutant.from ? mutant.to : text)
          }`
        return code.replace(OPENING, 'function parseAsWritten(') + exchange
      },
    },
  ],
  test: {
    root: fileURLToPath(new URL('../..', import.meta.url)),
    environment: 'node',
    include: [
      ...(isPublishedOnly ? [] : ['test/reference/workings.test.ts']),
      'test/reference/worked-examples*.test.ts',
      'test/reference/worked-heat.test.ts',
    ],
    bail: 1,
  },
})
