/** The chart panel against a stand-in for ECharts: what it asks of it, when, and what it leaves behind. */
import { flushPromises, mount } from '@vue/test-utils'
import { beforeEach, describe, expect, it, vi } from 'vitest'
import ChartPanel from '../../../web/charts/ChartPanel.vue'
import type { ChartModel } from '../../../web/charts/option.ts'

const made = vi.hoisted(() => ({
  instances: [] as { calls: [unknown, unknown][]; disposed: number; resized: number; render: () => void }[],
}))

vi.mock('../../../web/charts/echarts.ts', () => ({
  init: () => {
    const instance = { calls: [] as [unknown, unknown][], disposed: 0, resized: 0, render: () => {} }
    made.instances.push(instance)
    return {
      setOption: (option: unknown, how: unknown) => instance.calls.push([option, how]),
      on: (event: string, heard: () => void) => {
        if (event === 'rendered') instance.render = heard
      },
      resize: () => instance.resized++,
      dispose: () => instance.disposed++,
    }
  },
}))

const model = (structure: string, ends = '0..1'): ChartModel => ({
  structure,
  ends,
  full: { animation: false },
  axes: { xAxis: [] },
  numbers: { dataset: [] },
})

async function panel() {
  const wrapper = mount(ChartPanel, {
    props: { model: model('a'), label: 'Heat', revision: 1 },
    attachTo: document.body,
  })
  await flushPromises()
  await vi.waitFor(() => expect(made.instances).toHaveLength(1))
  return { wrapper, instance: made.instances[0]! }
}

beforeEach(() => {
  made.instances.length = 0
})

describe('ChartPanel', () => {
  it('draws the whole option once, then numbers alone, with the axes where their ends moved', async () => {
    const { wrapper, instance } = await panel()
    const same = model('a')
    await wrapper.setProps({ model: same, revision: 2 })
    await wrapper.setProps({ model: model('a', '0..2'), revision: 3 })
    const changed = model('b')
    await wrapper.setProps({ model: changed, revision: 4 })
    expect(instance.calls.map(([option]) => option)).toEqual([
      { animation: false },
      same.numbers,
      { xAxis: [], dataset: [] },
      changed.full,
    ])
    expect(instance.calls.map(([, how]) => (how as { notMerge?: boolean }).notMerge ?? false)).toEqual([
      true,
      false,
      false,
      true,
    ])
    wrapper.unmount()
  })
  it('writes the revision only after that revision was rendered', async () => {
    const { wrapper, instance } = await panel()
    expect(wrapper.attributes('data-revision')).toBeUndefined()
    instance.render()
    expect(wrapper.attributes('data-revision')).toBe('1')
    await wrapper.setProps({ model: model('a'), revision: 2 })
    expect(wrapper.attributes('data-revision')).toBe('1')
    instance.render()
    expect(wrapper.attributes('data-revision')).toBe('2')
    wrapper.unmount()
  })
  it('says what it shows and leaves no instance behind', async () => {
    const { wrapper, instance } = await panel()
    expect(wrapper.attributes('role')).toBe('img')
    expect(wrapper.attributes('aria-label')).toBe('Heat')
    wrapper.unmount()
    expect(instance.disposed).toBe(1)
  })
})
