/** The tables of the screen in view. They are found on the page, so that no table can be forgotten. */

export interface CopiedTable {
  readonly element: HTMLTableElement
  readonly title: string
}

const tidy = (text: string | null | undefined) => (text ?? '').replaceAll(/\s+/gu, ' ').trim()

/** Its caption; else the summary, heading or label that it stands under. */
function nameOf(table: HTMLTableElement): string {
  const caption = tidy(table.caption?.textContent)
  if (caption !== '') return caption
  for (let at: Element | null = table.parentElement; at && at.tagName !== 'MAIN'; at = at.parentElement) {
    const heading = at.querySelector(':scope > summary, :scope > h2, :scope > h3')
    const name = tidy(heading?.textContent) || tidy(at.getAttribute('aria-label'))
    if (name !== '') return name
  }
  return tidy(table.tHead?.rows[0]?.cells[0]?.textContent) || 'Table'
}

/** The design that a table belongs to, where it stands in a lane. */
function laneOf(table: Element): string {
  const lane = table.closest('article, .lane, [data-topology]')
  return tidy(lane?.querySelector('.name, h2, h3')?.textContent)
}

/** In the order of the page; tables of one name are numbered. */
export function tablesOnPage(within: ParentNode = document): CopiedTable[] {
  const tables = [...within.querySelectorAll<HTMLTableElement>('main table')]
  const names = tables.map((table) => {
    const name = nameOf(table)
    const lane = laneOf(table)
    return lane === '' || name.startsWith(lane) ? name : `${lane}: ${name}`
  })
  const seen = new Map<string, number>()
  return tables.map((element, k) => {
    const name = names[k]!
    const count = (seen.get(name) ?? 0) + 1
    seen.set(name, count)
    return { element, title: names.filter((each) => each === name).length > 1 ? `${name}, ${count}` : name }
  })
}
