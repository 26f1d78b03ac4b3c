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
    expect(wrapper.text()).toContain('Corners are being proven')
    jobs[1]!.prove(sampleAnswer())
    await flushPromises()
    expect(wrapper.text()).not.toContain('being proven')
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
