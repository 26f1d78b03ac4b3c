/** The screen of where each wins, over invented cells: its axes, legend, reading, table, states, and what a cell gives away. */
import { flushPromises, mount } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Study } from '../../../engine/requirements/study.ts'
import { EXAMPLES } from '../../../web/examples/index.ts'
import { plotsOnPage } from '../../../web/handOut/plots.ts'
import MapScreen from '../../../web/screens/map/MapScreen.vue'
import { useMapStore } from '../../../web/store/map.ts'
import { useStudyStore } from '../../../web/store/study.ts'
import { cellOf, mapPool } from './mapPool.ts'

const study = EXAMPLES.find(({ study: { title } }) => title.startsWith('Loom'))!.study

/** Shunt at small loads; beyond them series-pass in a wide band, feedback in a narrow one; none where it is very hot. */
function invented({ requirements: { load, output, ambient } }: Study) {
  if (ambient.max > 80) return cellOf(undefined, [])
  if (load.max < 0.03) return cellOf(0, [0, 1, 2], [90, 70, 62.5])
  return output.tolerance < 0.1 ? cellOf(2, [2], [0, 0, 88]) : cellOf(1, [1, 2], [0, 80, 72])
}

const plain = (text: string): string =>
  text
    .replaceAll(/[\u202F\u2009]/gu, ' ')
    .replaceAll(/\s+/gu, ' ')
    .trim()

let wrapper: ReturnType<typeof mount> | undefined

function opened(invent: (at: Study) => ReturnType<typeof cellOf> = invented) {
  const studies = useStudyStore()
  studies.loadStudy(study)
  const own = mapPool(invent)
  const map = useMapStore()
  map.setPool(own.pool)
  const show = async () => {
    wrapper = mount(MapScreen, { attachTo: document.body })
    await flushPromises()
    return wrapper
  }
  return { ...own, map, studies, show }
}

/** A map that is there: load across, band upwards, 25 cells each way. */
async function drawn(invent?: Parameters<typeof opened>[0]) {
  const all = opened(invent)
  all.map.choose('x', 'load.max')
  all.map.choose('y', 'output.tolerance')
  all.map.setCount(25)
  await flushPromises()
  const screen = await all.show()
  const application = screen.get('[role="application"]')
  const words = (): string => plain(screen.get('#map-cell').text())
  const status = (): string => plain(screen.get('[role="status"]').text())
  return { ...all, screen, application, words, status }
}

beforeEach(() => {
  localStorage.clear()
  setActivePinia(createPinia())
})
afterEach(() => {
  wrapper?.unmount()
  document.body.replaceChildren()
})

describe('opening the screen', () => {
  it('looks along each requirement first, puts the two that tell most on the axes, and says why', async () => {
    const { map, asked, state, release, show } = opened()
    state.isHeld = true
    const screen = await show()
    expect(plain(screen.get('[role="status"]').text())).toContain('Looking along each requirement for boundaries.')
    expect(screen.find('[role="application"]').exists()).toBe(false)
    release()
    await flushPromises()
    expect(asked.slice(0, 7).map(({ name, cells }) => [name, cells])).toEqual(
      Array.from({ length: 7 }, () => ['mapCells', 9]),
    )
    expect(new Set([map.x.path, map.y.path])).toEqual(new Set(['load.max', 'output.tolerance']))
    expect(plain(screen.get('.axes').text())).toContain('Axes chosen for you')
    expect(screen.get('h1').text()).toContain('of this map')
  })

  it('says so where no requirement alone changes anything, and still shows a map', async () => {
    const { show } = opened(() => cellOf(1, [1], [0, 50, 0]))
    const screen = await show()
    expect(plain(screen.get('.axes').text())).toContain('no requirement moved alone changes who wins or who meets')
    expect(screen.get('h1').text()).toBe('Series-pass wins 100\u2009% of this map')
  })

  it('shows what was seen along each requirement, and puts one on an axis from there', async () => {
    const { map, show } = opened()
    const screen = await show()
    const rows = screen.findAll('tbody tr').filter((row) => row.find('.strip').exists())
    expect(rows).toHaveLength(7)
    const ambient = rows.find((row) => row.text().includes('Hottest ambient'))!
    expect(plain(ambient.text())).toContain('Series-pass up to 76.3 °C, none meets from 85 °C')
    await ambient.get('button[aria-label="Hottest ambient upwards"]').trigger('click')
    expect(map.y.path).toBe('ambient.max')
    expect(map.isByHand).toBe(true)
  })
})

describe('the axes', () => {
  it('are kept where they were set by hand, also when the requirements leave them, until other ones are asked for', async () => {
    const { map, studies, screen, asked } = await drawn()
    studies.edit('load.max', 1)
    await flushPromises()
    expect(plain(screen.get('.axes').text())).toContain('In force is 1.00 A, which is not on this axis.')
    const before = asked.length
    await map.again()
    // the map alone, no look before it
    expect(asked.slice(before).every(({ cells }) => cells !== 9)).toBe(true)
    expect([map.x.path, map.x.to, map.y.path]).toEqual(['load.max', 0.35, 'output.tolerance'])
    const bring = screen.findAll('.axes button').find((button) => button.text() === 'Bring it onto the axis')!
    await bring.trigger('click')
    expect(map.x.to).toBeGreaterThan(1)
    const choose = screen.findAll('.axes button').find((button) => button.text().startsWith('Choose axes'))!
    await choose.trigger('click')
    await flushPromises()
    expect(map.isByHand).toBe(false)
    // at 1 A another band, load or ambient still tells
    expect(map.lines).toHaveLength(7)
  })

  it('never show one requirement twice: the other axis gives way', async () => {
    const { map, screen } = await drawn()
    await screen.get('select[aria-label="Upwards, requirement"]').setValue('load.max')
    expect([map.x.path, map.y.path]).toEqual(['output.tolerance', 'load.max'])
  })

  it('are typed with units, and a value that cannot be is answered by a sentence and changes nothing', async () => {
    const { map, screen } = await drawn()
    const to = screen.get<HTMLInputElement>('[data-axis="x.to"]')
    await to.setValue('0.2 A')
    expect(map.x.to).toBe(0.2)
    const alert = (): string => plain(screen.get('.axes [role="alert"]').text())
    await to.setValue('3 mA')
    expect(alert()).toBe('The axis must begin below its end.')
    await to.setValue('nonsense')
    expect(alert()).toContain('Most load current:')
    await to.setValue('30 A')
    expect(alert()).toContain('may be')
    expect(map.x.to).toBe(0.2)
  })

  it('go by ratio for the load and by even steps for the band, as long as nobody says otherwise', async () => {
    const { map, screen, asked } = await drawn()
    const steps = (axis: string) => screen.get<HTMLSelectElement>(`select[aria-label="${axis}, steps"]`)
    expect([steps('Across').element.value, steps('Upwards').element.value]).toEqual(['ratio', 'even'])
    expect(plain(screen.get('.plot').text())).toContain('Most load current, logarithmic')
    await steps('Across').setValue('even')
    await flushPromises()
    expect(map.x.spacing).toBe('even')
    expect(asked.at(-1)!.name).toBe('refineMap')
    expect(map.picture!.question.x.spacing).toBe('even')
    expect(plain(screen.get('.plot').text())).not.toContain('logarithmic')
  })

  it('have no ratio for a temperature, and none from zero', async () => {
    const { map, screen } = await drawn()
    await screen.get('select[aria-label="Upwards, requirement"]').setValue('ambient.max')
    expect(screen.find('select[aria-label="Upwards, steps"]').exists()).toBe(false)
    await screen.get('select[aria-label="Upwards, requirement"]').setValue('limits.loadRegulation')
    await screen.get('[data-axis="y.from"]').setValue('0 %')
    expect(plain(screen.get('.axes [role="alert"]').text())).toBe('A logarithmic axis begins above zero.')
    await screen.get('select[aria-label="Upwards, steps"]').setValue('even')
    await screen.get('[data-axis="y.from"]').setValue('0 %')
    expect([map.y.from, map.y.spacing]).toEqual([0, 'even'])
    const steps = screen.get<HTMLSelectElement>('select[aria-label="Upwards, steps"]')
    await steps.setValue('ratio')
    expect([map.y.spacing, steps.element.value]).toEqual(['even', 'even'])
  })

  it('say where a limit is not in force', async () => {
    const { screen } = await drawn()
    await screen.get('select[aria-label="Upwards, requirement"]').setValue('limits.loadRegulation')
    expect(plain(screen.get('.axes').text())).toContain('Not limited by the requirements in force')
  })
})

describe('the legend', () => {
  it('names each design by colour and marker, and every other sign', async () => {
    const { screen } = await drawn()
    const items = screen.findAll('.body > ul li').map((item) => plain(item.text()))
    expect(items.slice(0, 3)).toEqual(['Shunt wins', 'Series-pass wins', 'Feedback wins'])
    expect(screen.findAll('.body > ul .mark').map((mark) => mark.classes()[1])).toEqual([
      'square',
      'triangle',
      'circle',
    ])
    for (const sign of ['none meets', 'filled in', 'in force', 'stops meeting', 'points ahead'])
      expect(items.some((item) => item.includes(sign))).toBe(true)
  })
})

describe('the cell under the cursor', () => {
  it('is read by the keys: arrows move by one cell, with Shift by ten, and stop at the edges', async () => {
    const { application, words } = await drawn()
    const middle = words()
    expect(middle).toContain('Most load current')
    for (let k = 0; k < 3; k++) await application.trigger('keydown', { key: 'ArrowLeft', shiftKey: true })
    expect(words()).toMatch(/^Most load current 7\.00 mA, .*: shunt wins, 20\.0 points ahead of the next of /u)
    const edge = words()
    await application.trigger('keydown', { key: 'ArrowLeft' })
    expect(words()).toBe(edge)
    for (let k = 0; k < 3; k++) await application.trigger('keydown', { key: 'ArrowRight', shiftKey: true })
    for (let k = 0; k < 3; k++) await application.trigger('keydown', { key: 'ArrowDown', shiftKey: true })
    expect(words()).toMatch(
      /^Most load current 350 mA, output band ±3\.75 %: feedback wins, the only one that meets\./u,
    )
    await application.trigger('keydown', { key: 'ArrowUp' })
    expect(words()).not.toContain('±3.75 %')
    // not the page's own keys
    const before = words()
    await application.trigger('keydown', { key: 'ArrowUp', ctrlKey: true })
    expect(words()).toBe(before)
  })

  it('is read by the mouse, the lowest row at the bottom', async () => {
    const { application, words } = await drawn()
    const box = { left: 100, top: 200, right: 350, bottom: 450, width: 250, height: 250, x: 100, y: 200 }
    application.element.getBoundingClientRect = () => ({ ...box, toJSON: () => box })
    await application.trigger('pointermove', { clientX: 101, clientY: 449 })
    expect(words()).toMatch(/^Most load current 7\.00 mA, output band ±3\.75 %: shunt wins/u)
    await application.trigger('pointermove', { clientX: 349, clientY: 201 })
    expect(words()).toMatch(
      /^Most load current 350 mA, output band ±30 %: series-pass wins, 8\.0 points ahead of feedback\./u,
    )
  })

  it('says whether it was worked out or filled in', async () => {
    const { application, words, map } = await drawn()
    const { codes, filled } = map.picture!
    expect(codes.some((code, cell) => code < 254 && filled[cell] === 1)).toBe(true)
    const seen = new Set<string>()
    for (let k = 0; k < 25; k++) {
      seen.add(/(Worked out|Filled in from its neighbours)\.$/u.exec(words())?.[1] ?? words())
      await application.trigger('keydown', { key: 'ArrowUp' })
    }
    expect([...seen].toSorted()).toEqual(['Filled in from its neighbours', 'Worked out'])
  })
})

describe('a cell', () => {
  it('gives its requirements to the study by Enter, as one step that undo takes back', async () => {
    const { application, studies, map, status } = await drawn()
    const before = JSON.stringify(studies.study)
    for (let k = 0; k < 3; k++) await application.trigger('keydown', { key: 'ArrowLeft', shiftKey: true })
    await application.trigger('keydown', { key: 'Enter' })
    const { load, output } = studies.study.requirements
    expect([load.max, output.tolerance]).toEqual([0.007, 0.1688])
    // a nominal load above the most goes along
    expect(load.nominal).toBe(0.007)
    expect(status()).toContain('before the last change')
    studies.undo()
    expect(JSON.stringify(studies.study)).toBe(before)
    expect(map.isStale).toBe(false)
  })

  it('gives them by a click as well', async () => {
    const { application, studies } = await drawn()
    const box = { left: 0, top: 0, right: 250, bottom: 250, width: 250, height: 250, x: 0, y: 0 }
    application.element.getBoundingClientRect = () => ({ ...box, toJSON: () => box })
    await application.trigger('click', { clientX: 249, clientY: 1 })
    const { load, output } = studies.study.requirements
    expect([load.max, output.tolerance]).toEqual([0.35, 0.3])
  })

  it('whose requirements contradict each other says so, in words and in the table, and gives nothing', async () => {
    const { map, application, words, studies, screen } = await drawn()
    await screen.get('select[aria-label="Across, requirement"]').setValue('input.min')
    // above the highest input of 27 V
    map.setEnd('x', 'to', 40)
    await flushPromises()
    for (let k = 0; k < 3; k++) await application.trigger('keydown', { key: 'ArrowRight', shiftKey: true })
    expect(words()).toMatch(/^Lowest input voltage 40\.0 V, .*: the requirements contradict each other\.$/u)
    const before = JSON.stringify(studies.study)
    await application.trigger('keydown', { key: 'Enter' })
    expect(JSON.stringify(studies.study)).toBe(before)
    const details = screen.findAll('details').find((each) => each.text().includes('Map as a table'))!
    ;(details.element as HTMLDetailsElement).open = true
    await details.trigger('toggle')
    expect(plain(details.findAll('tbody tr').at(-1)!.text())).toContain('contradiction')
  })
})

describe('the table', () => {
  async function table() {
    const all = await drawn()
    const details = all.screen.findAll('details').find((each) => each.text().includes('Map as a table'))!
    expect(details.find('table').exists()).toBe(false)
    ;(details.element as HTMLDetailsElement).open = true
    await details.trigger('toggle')
    const rows = () =>
      details.findAll('tbody tr').map((row) =>
        row
          .findAll('th, td')
          .map((cell) => plain(cell.text()))
          .join(' | '),
      )
    const button = (name: string) => details.findAll('button').find((each) => each.text() === name)!
    return { ...all, details, rows, button }
  }

  it('shows one row of the map, the one nearest to what is in force, and reaches each of the others', async () => {
    const { details, rows, button, map } = await table()
    const select = details.get('select')
    const shown = (): string => plain(details.get('caption').text())
    // 15 % in force; rows from 3.75 % to 30 % in 25 steps
    expect(shown()).toBe('Cells at output band ±14.69 %')
    expect(rows()).toHaveLength(25)
    const all = new Set<string>()
    for (let k = 0; k < 25; k++) {
      await select.setValue(String(k))
      for (const row of rows()) all.add(`${shown()} ${row}`)
    }
    expect(all.size).toBe(map.picture!.codes.length)
    expect(button('Row above').attributes('disabled')).toBeDefined()
    await button('Row below').trigger('click')
    expect(shown()).toBe('Cells at output band ±28.91 %')
  })

  it('says of each cell who wins, by how much, and how it is known', async () => {
    const { details, rows } = await table()
    await details.get('select').setValue('0')
    expect(rows()[0]).toBe('7.00 mA | Shunt | 20.0 | 90.0 | 70.0 | 62.5 | worked out')
    expect(rows().at(-1)).toBe('350 mA | Feedback | – | falls short | falls short | 88.0 | worked out')
  })

  it('is handed out whole: every cell is a row of the CSV, at the values of a logarithmic axis', async () => {
    const { map } = await table()
    const [plot] = plotsOnPage()
    const [head, ...rows] = plot!.sheets()[0]!.rows
    expect(head!.slice(0, 2)).toEqual(['Output band, fraction', 'Most load current, A'])
    expect(rows).toHaveLength(map.picture!.codes.length)
    const loads = rows.slice(0, 25).map((row) => row[1] as number)
    for (let k = 1; k < 25; k++) expect(loads[k]! / loads[k - 1]!).toBeCloseTo(50 ** (1 / 24), 2)
  })
})

describe('a run', () => {
  it('tells how far it is, and stops when asked; what is there stays and says that it is coarse', async () => {
    const { state, map, screen, status, asked } = await drawn()
    state.isHeld = true
    await screen.get('.count select').setValue('50')
    expect(status()).toContain('Working the map out.')
    await screen.get('[role="status"] button').trigger('click')
    await flushPromises()
    expect(map.busy).toBe(false)
    expect(status()).toContain('Stopped; the map is coarse where it was not worked out.')
    const before = asked.length
    state.isHeld = false
    await screen.get('[role="status"] button').trigger('click')
    await flushPromises()
    expect(asked.length).toBeGreaterThan(before)
    expect(status()).toMatch(/^\d+ of 2500 cells worked out, the rest filled in\.$/u)
  })

  it('that breaks twice says so, and can be asked for again', async () => {
    const { state, screen, status } = await drawn()
    state.fails = 2
    await screen.get('.count select').setValue('50')
    await flushPromises()
    expect(status()).toContain('The engine broke off before it had this.')
    await screen.get('[role="status"] button').trigger('click')
    await flushPromises()
    expect(status()).toContain('of 2500 cells worked out')
  })

  it('is not of what is in force any more after another weight, and says so', async () => {
    const { studies, status } = await drawn()
    studies.edit('weights.heat', 9)
    await flushPromises()
    expect(status()).toContain('Of the requirements or weights before the last change.')
  })

  it('ends when the screen is left', async () => {
    const { state, map, screen } = await drawn()
    state.isHeld = true
    await screen.get('.count select').setValue('50')
    expect(map.busy).toBe(true)
    screen.unmount()
    wrapper = undefined
    expect(map.busy).toBe(false)
  })
})
