import { describe, expect, test } from 'vitest'
import {
  checkStudy,
  LARGEST_STUDY,
  LONGEST_NOTES,
  migrate,
  MIGRATIONS,
  parseStudyText,
  studyFile,
  VERSION,
} from '../../../engine/requirements/index.ts'
import { leastFile } from './study.ts'

describe('parseStudyText', () => {
  test('reads what checkStudy accepts, with a byte order mark too', () => {
    const text = JSON.stringify(leastFile())
    expect(parseStudyText(text)).toEqual(checkStudy(leastFile()))
    expect(parseStudyText(`\uFEFF${text}\n`)).toEqual(checkStudy(leastFile()))
  })

  test.each([
    ['', 'json', /is empty/u],
    [' \n\t', 'json', /is empty/u],
    ['{', 'json', /is not JSON/u],
    ['{"a": 1,\n\n}', 'json', /is not JSON/u],
    ['wattfork', 'json', /is not JSON/u],
    ['{"a": NaN}', 'json', /is not JSON/u],
    ['[]', 'type', /is a list/u],
    ['null', 'type', /is null/u],
    ['"x"', 'type', /is the text "x"/u],
  ])('refuses %j', (text, code, message) => {
    const checked = parseStudyText(text)
    expect(checked).toMatchObject({ ok: false, issues: [{ code, message: expect.stringMatching(message) as string }] })
    expect(JSON.stringify(checked)).not.toContain('\\n')
  })

  test('a number beyond every number is out of range', () => {
    const text = JSON.stringify(leastFile()).replace('8.5', '1e999')
    expect(parseStudyText(text)).toMatchObject({
      ok: false,
      issues: [{ path: 'requirements.input.min', code: 'range' }],
    })
  })

  test('nesting to any depth is no trap', () => {
    const deep = '['.repeat(200_000) + ']'.repeat(200_000)
    expect(parseStudyText(deep)).toMatchObject({ ok: false, issues: [{ code: 'type' }] })
    const text = JSON.stringify(leastFile()).replace('8.5', deep)
    expect(parseStudyText(text)).toMatchObject({
      ok: false,
      issues: [{ path: 'requirements.input.min', code: 'type' }],
    })
  })

  test('a text of 50 MB is refused with its size and the limit, unread', () => {
    const text = `{"format":"${'x'.repeat(50e6)}`
    const checked = parseStudyText(text)
    // a parser would have stopped at the open string: the size is what was looked at
    expect(checked).toMatchObject({
      ok: false,
      issues: [{ code: 'size', message: 'The study is 50.0 MB long; at most 1.00 MB is read.' }],
    })
  })

  test('the limit itself is still read', () => {
    const text = JSON.stringify(leastFile())
    expect(parseStudyText(text.padEnd(LARGEST_STUDY)).ok).toBe(true)
    expect(parseStudyText(text.padEnd(LARGEST_STUDY + 1)).ok).toBe(false)
  })
})

describe('notes', () => {
  test('are kept as they are, line ends and all', () => {
    const notes = 'Fed from the barn.\n\n  Ask about the cable\u2026'
    const checked = checkStudy({ ...leastFile(), notes })
    expect(checked.ok && checked.study.notes).toBe(notes)
    expect(checked.ok && studyFile(checked.study).notes).toBe(notes)
  })

  test('that are empty are none', () => {
    const checked = checkStudy({ ...leastFile(), notes: '' })
    expect(checked.ok && 'notes' in checked.study).toBe(false)
  })

  test('that are too long are refused with the longest allowed', () => {
    const checked = parseStudyText(JSON.stringify({ ...leastFile(), notes: 'n'.repeat(LONGEST_NOTES + 1) }))
    expect(checked).toMatchObject({
      ok: false,
      issues: [{ path: 'notes', message: expect.stringContaining('10000') as string }],
    })
  })
})

describe('versions', () => {
  test('a newer file is refused for that alone', () => {
    const checked = checkStudy({ ...leastFile(), version: 2, novelty: true })
    expect(checked).toMatchObject({ ok: false, issues: [{ path: 'version', code: 'version' }] })
    expect(!checked.ok && checked.issues).toHaveLength(1)
    expect(!checked.ok && checked.issues[0]?.message).toContain('newer than 1')
  })

  test('a file of an earlier version is read as the steps since then make it', () => {
    // an invented version 0 that called the output `rail`
    const { requirements, ...file } = leastFile()
    const { output, ...others } = requirements
    const old = { ...file, version: 0, requirements: { ...others, rail: output } }
    const rename = {
      from: 0,
      migrate: (content: Record<string, unknown>) => {
        const { rail, ...rest } = content['requirements'] as Record<string, unknown>
        return { ...content, requirements: { ...rest, output: rail } }
      },
    }
    expect(checkStudy(old, undefined, [rename])).toEqual(checkStudy(leastFile()))
    expect(checkStudy(old).ok).toBe(false)
  })

  test('a version that never was is named beside the one that is read', () => {
    const checked = checkStudy({ ...leastFile(), version: 0 })
    expect(checked).toMatchObject({ ok: false, issues: [{ path: 'version', message: 'version is 0; it must be 1.' }] })
  })

  test('a study is written in the current version with its keys in the published order', () => {
    const checked = checkStudy(leastFile())
    const file = checked.ok ? studyFile(checked.study) : undefined
    expect(Object.keys(file ?? {})).toEqual(['format', 'version', 'title', 'requirements', 'weights', 'assumptions'])
    expect(file?.version).toBe(VERSION)
    expect(Object.keys(file?.requirements ?? {})).toEqual([
      'input',
      'output',
      'load',
      'ambient',
      'limits',
      'parts',
      'derating',
    ])
  })

  test('there is one migration for each version before the current one', () => {
    expect(MIGRATIONS.map((step) => step.from)).toEqual(Array.from({ length: VERSION - 1 }, (_, k) => k + 1))
  })

  test('migrations run one after the other from the version of the file', () => {
    const steps = [1, 2, 3].map((from) => ({
      from,
      migrate: (file: Record<string, unknown>) => ({
        ...file,
        trail: [...((file['trail'] as number[] | undefined) ?? []), from],
      }),
    }))
    const file = { version: 2 }
    expect(migrate(file, steps)).toEqual({ version: 4, trail: [2, 3] })
    expect(file).toEqual({ version: 2 })
    expect(migrate({ version: 9 }, steps)).toEqual({ version: 9 })
    expect(migrate({}, steps)).toEqual({})
  })
})
