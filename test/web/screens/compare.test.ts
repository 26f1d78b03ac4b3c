/** The screen's states over a client of our own; the canvas is left out. Data are invented. */
import { flushPromises, mount } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import type { Answer } from '../../../engine/compare/comparison.ts'
import type { EngineClient } from '../../../web/engineClient.ts'
import CompareScreen from '../../../web/screens/compare/CompareScreen.vue'
import { useAnswerStore } from '../../../web/store/answer.ts'
import { useCursorStore } from '../../../web/store/cursor.ts'
import { useStudyStore } from '../../../web/store/study.ts'
import { SAMPLE_ASSUMPTIONS, SAMPLE_REQUIREMENTS, sampleAnswer } from '../../fixtures/answers/sample.ts'

vi.mock('../../../web/charts/echarts.ts', () => ({
  init: () => ({ setOption() {}, on() {}, resize() {}, dispose() {} }),
}))

/** A client whose jobs end when the test says so. */
function client() {
  const jobs: { give: (answer: Answer) => void; prove: (answer: Answer) => void; fail: (error: Error) => void }[] = []
  const own: EngineClient = {
    run: (_name, _input, onStep) =>
      new Promise((resolve, fail) => {
        jobs.push({
          give: (answer) => onStep(answer),
          prove: (answer) => resolve(answer),
          fail,
        })
      }),
    cancel: vi.fn<() => void>(),
  }
  return { own, jobs }
}

function screen() {
  setActivePinia(createPinia())
  useStudyStore().loadStudy({
    title: 'Sample',
    requirements: SAMPLE_REQUIREMENTS,
    assumptions: SAMPLE_ASSUMPTIONS,
    weights: { heat: 1 },
  })
  const { own, jobs } = client()
  useAnswerStore().follow(own)
  return { wrapper: mount(CompareScreen), jobs }
}

beforeEach(() => {
  localStorage.clear()
  sessionStorage.clear()
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] })
})
afterEach(() => vi.useRealTimers())

describe('CompareScreen', () => {
  it('begins without numbers', () => {
    const { wrapper } = screen()
    expect(wrapper.get('h1').text()).toBe('Where will the watts go?')
    expect(wrapper.find('.lane').exists()).toBe(false)
    wrapper.unmount()
  })
  it('shows three lanes, plots, figures and parts of one revision', async () => {
    const { wrapper, jobs } = screen()
    jobs[0]!.prove(sampleAnswer())
    await flushPromises()
    const { revision } = useAnswerStore()
    expect(wrapper.findAll('.lane').map((lane) => lane.attributes('data-revision'))).toEqual(
      Array.from({ length: 3 }, () => String(revision)),
    )
    expect(wrapper.get('table.figures').attributes('data-revision')).toBe(String(revision))
    expect(wrapper.get('h1').text()).toContain('Series-pass meets every requirement')
    expect(wrapper.findAll('section.list')).toHaveLength(3)
    wrapper.unmount()
  })
  it('says that it works only after 300 ms, and keeps the last result dimmed', async () => {
    const { wrapper, jobs } = screen()
    jobs[0]!.prove(sampleAnswer())
    await flushPromises()
    useStudyStore().edit('input.max', 13)
    await flushPromises()
    vi.advanceTimersByTime(299)
    await flushPromises()
    expect(wrapper.find('.old').exists()).toBe(false)
    expect(wrapper.text()).not.toContain('Sizing')
    vi.advanceTimersByTime(2)
    await flushPromises()
    expect(wrapper.find('.old').exists()).toBe(true)
    expect(wrapper.text()).toContain('Sizing the three designs; what is shown is the result before.')
    jobs[1]!.give(sampleAnswer({ stage: 'first' }))
    await flushPromises()
    expect(wrapper.find('.old').exists()).toBe(false)
    vi.advanceTimersByTime(301)
    await flushPromises()
    expect(wrapper.text()).toContain('Corners are being proven')
    jobs[1]!.prove(sampleAnswer())
    await flushPromises()
    expect(wrapper.text()).not.toContain('being proven')
    wrapper.unmount()
  })
  it('claims no verdict, rank, reason or worst case before the corners are proven', async () => {
    const { wrapper, jobs } = screen()
    const badges = () => wrapper.findAll('.badge').map((badge) => badge.text())
    jobs[0]!.give(sampleAnswer({ stage: 'first' }))
    await flushPromises()
    expect(badges()).toEqual(['Not proven yet', 'Not proven yet', 'Not proven yet'])
    expect(wrapper.get('h1').text()).toMatch(
      /^At nominal input and load the heat is .*The corners are not proven yet\.$/u,
    )
    expect(wrapper.text()).not.toMatch(/Meets|[Ff]alls short|Tightest|not ranked(?! yet)|over\b.*of.*rating/u)
    expect(wrapper.findAll('.best, .failing, .why, .notes, .total .value').map((e) => e.text())).toEqual([
      '–',
      '–',
      '–',
    ])
    jobs[0]!.prove(sampleAnswer())
    await flushPromises()
    expect(badges().join('; ')).toMatch(/^Falls short 2 of 7; Meets all \d+; Meets all \d+$/u)
    expect(wrapper.find('.best').exists()).toBe(true)
    wrapper.unmount()
  })
  it('keeps lanes and headline as high as they were while the verdict is away', async () => {
    const { wrapper, jobs } = screen()
    jobs[0]!.prove(sampleAnswer())
    await flushPromises()
    const block = wrapper.get<HTMLElement>('[data-topology=shunt] .verdict').element
    Object.defineProperty(block, 'offsetHeight', { value: 231 })
    useStudyStore().edit('input.max', 13)
    await flushPromises()
    jobs[1]!.give(sampleAnswer({ stage: 'first' }))
    await flushPromises()
    expect(block.style.minHeight).toBe('231px')
    jobs[1]!.prove(sampleAnswer())
    await flushPromises()
    expect(block.style.minHeight).toBe('')
    wrapper.unmount()
  })
  it('says after a stop that what is shown is not the answer, and runs again on request', async () => {
    const { wrapper, jobs } = screen()
    jobs[0]!.prove(sampleAnswer())
    await flushPromises()
    useStudyStore().edit('input.max', 13)
    await flushPromises()
    useAnswerStore().stop()
    await flushPromises()
    expect(wrapper.get('.step').text()).toContain('What is shown is the result before the last change.')
    expect(wrapper.find('.compare.left').exists()).toBe(true)
    await wrapper.get('.step button').trigger('click')
    expect(jobs).toHaveLength(3)
    jobs[2]!.give(sampleAnswer({ stage: 'first' }))
    await flushPromises()
    expect(wrapper.find('.compare.left').exists()).toBe(false)
    useAnswerStore().stop()
    await flushPromises()
    expect(wrapper.get('.step').text()).toContain('Stopped before the corners were proven.')
    wrapper.unmount()
  })
  it('offers to run again after a stop before the first answer', async () => {
    const { wrapper, jobs } = screen()
    useAnswerStore().stop()
    await flushPromises()
    expect(wrapper.get('.empty').text()).toContain('Stopped before there was an answer.')
    await wrapper.get('.empty button').trigger('click')
    expect(jobs).toHaveLength(2)
    wrapper.unmount()
  })
  it('eases what the closest design misses in one step, where nothing meets', async () => {
    const { wrapper, jobs } = screen()
    const studies = useStudyStore()
    studies.edit('output.tolerance', 0.05)
    await flushPromises()
    jobs
      .at(-1)!
      .prove(
        sampleAnswer({ verdicts: { shunt: 'falls-short', 'series-pass': 'falls-short', feedback: 'falls-short' } }),
      )
    await flushPromises()
    const steps = studies.undoSteps.length
    await wrapper.findAll('.out button').at(-1)!.trigger('click')
    expect(studies.study.requirements.output.tolerance).toBe(0.09)
    expect(studies.study.requirements.limits.loadRegulation).toBe(0.037)
    expect(studies.undoSteps).toHaveLength(steps + 1)
    wrapper.unmount()
  })
  it('names the study by keyboard', async () => {
    const { wrapper } = screen()
    await wrapper.get('[aria-label="Rename the study"]').trigger('click')
    const field = wrapper.get<HTMLInputElement>('[aria-label="Title of the study"]')
    await field.setValue('Relay rail')
    await field.trigger('keydown', { key: 'Enter' })
    await flushPromises()
    expect(useStudyStore().study.title).toBe('Relay rail')
    expect(wrapper.get('.title b').text()).toBe('Relay rail')
    await wrapper.get('[aria-label="Rename the study"]').trigger('click')
    await wrapper.get('[aria-label="Title of the study"]').setValue('Never')
    await wrapper.get('[aria-label="Title of the study"]').trigger('keydown', { key: 'Escape' })
    await flushPromises()
    expect(useStudyStore().study.title).toBe('Relay rail')
    wrapper.unmount()
  })
  it('keeps the last good result through a failure, and offers to run again where there is none', async () => {
    const { wrapper, jobs } = screen()
    jobs[0]!.fail(new Error('broken'))
    await flushPromises()
    expect(wrapper.get('h1').text()).toBe('No result yet.')
    await wrapper.get('.empty button').trigger('click')
    expect(jobs).toHaveLength(2)
    jobs[1]!.prove(sampleAnswer())
    await flushPromises()
    useStudyStore().edit('input.max', 13)
    await flushPromises()
    jobs[2]!.fail(new Error('broken again'))
    await flushPromises()
    expect(wrapper.findAll('.lane')).toHaveLength(3)
    wrapper.unmount()
  })
  it('moves flows and readouts with the cursor, by keys on the pill', async () => {
    const { wrapper, jobs } = screen()
    jobs[0]!.prove(sampleAnswer())
    await flushPromises()
    const pill = wrapper.get('[role=slider]')
    const flow = () => wrapper.get('[data-topology=shunt] .flow').attributes('aria-label')
    const before = flow()
    expect(pill.attributes('aria-valuetext')).toBe('11.0\u202FV')
    await pill.trigger('keydown', { key: 'ArrowRight' })
    expect(useCursorStore().input).toBe(11.1)
    expect(pill.attributes('aria-valuetext')).toBe('11.1\u202FV')
    expect(flow()).not.toBe(before)
    await pill.trigger('keydown', { key: 'Home' })
    expect(useCursorStore().input).toBe(8.6)
    wrapper.unmount()
  })
})
