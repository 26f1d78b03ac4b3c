/** Lines between cells of a grid, as few and as long as they can be: a dash pattern runs on along them, and a canvas has less to do. */

/** A corner of cells: columns from the left edge, rows from the bottom edge. */
export type Corner = readonly [column: number, row: number]

/** Lines along the edges of all neighbouring cells for which `differ` holds; a closed one ends where it begins. */
export function contours(columns: number, rows: number, differ: (a: number, b: number) => boolean): Corner[][] {
  const width = columns + 1
  /** By corner: those that an edge leads to and no line has gone to yet. */
  const open = new Map<number, number[]>()
  const join = (a: number, b: number): void => {
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const ends = open.get(from)
      if (ends) ends.push(to)
      else open.set(from, [to])
    }
  }
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const cell = column + row * columns
      const corner = column + 1 + (row + 1) * width
      if (column + 1 < columns && differ(cell, cell + 1)) join(corner - width, corner)
      if (row + 1 < rows && differ(cell, cell + columns)) join(corner - 1, corner)
    }

  const take = (from: number, to: number): void => {
    const ends = open.get(from)!
    ends.splice(ends.indexOf(to), 1)
  }
  const lineFrom = (start: number): Corner[] => {
    const line = [start]
    for (let at = start, step = 0; ;) {
      const ends = open.get(at)!
      const next = ends.find((to) => to - at === step) ?? ends[0]
      if (next === undefined) return line.map((corner): Corner => [corner % width, Math.floor(corner / width)])
      take(at, next)
      take(next, at)
      // straight on: the line only grows longer
      if (next - at === step) line[line.length - 1] = next
      else line.push(next)
      step = next - at
      at = next
    }
  }
  const lines: Corner[][] = []
  // first those with an end of their own, then the closed ones
  for (const isEnd of [(n: number) => n % 2 === 1, (n: number) => n > 0])
    for (const [corner, ends] of open) while (isEnd(ends.length)) lines.push(lineFrom(corner))
  return lines
}
