/** Runs what is measured in the page, against the built page, as the browser tests are run. */
import { fileURLToPath } from 'node:url'
import { defineConfig, type PlaywrightTestConfig } from '@playwright/test'
import tests from '../../../.playwright.config.ts'

const cwd = fileURLToPath(new URL('../../..', import.meta.url))
const server = tests.webServer as Exclude<PlaywrightTestConfig['webServer'], readonly unknown[] | undefined>

export default defineConfig({
  ...tests,
  testDir: '.',
  testMatch: ['edits.ts', 'mapTasks.ts'],
  outputDir: '../../../node_modules/.cache/playwright',
  webServer: { ...server, cwd },
})
