/** A field over a grid as filled bands and contour lines: each cell is two triangles, and on a triangle the field is a plane. */

/** Values row by row, the lowest y first; NaN where a point has no solution. Places of the columns and rows, rising. */
export interface Field {
  readonly xs: readonly number[]
  readonly ys: readonly number[]
  readonly values: Float64Array
}

interface Vertex {
  readonly x: number
  readonly y: number
  readonly v: number
}

const at = ({ xs, ys, values }: Field, i: number, j: number): Vertex => ({
  x: xs[i]!,
  y: ys[j]!,
  v: values[j * xs.length + i]!,
})

/** The four corners of a cell, counter-clockwise from its lower left. */
function corners(field: Field, i: number, j: number): [Vertex, Vertex, Vertex, Vertex] {
  return [at(field, i, j), at(field, i + 1, j), at(field, i + 1, j + 1), at(field, i, j + 1)]
}

const trianglesOf = ([a, b, c, d]: [Vertex, Vertex, Vertex, Vertex]): [Vertex, Vertex, Vertex][] => [
  [a, b, c],
  [a, c, d],
]

/** Where the field is `level` between two vertices on either side of it. */
function crossing(a: Vertex, b: Vertex, level: number): Vertex {
  const t = (level - a.v) / (b.v - a.v)
  return { x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y), v: level }
}

/** The part of a triangle where the field is at least `level`: 0, 3 or 4 vertices. */
export function clipped(triangle: readonly Vertex[], level: number): Vertex[] {
  const out: Vertex[] = []
  triangle.forEach((from, k) => {
    const to = triangle[(k + 1) % triangle.length]!
    const isIn = from.v >= level
    if (isIn) out.push(from)
    if (isIn !== to.v >= level) out.push(crossing(from, to, level))
  })
  return out
}

/** Points on the picture for SVG's path: x right, y down. */
export type Place = (x: number, y: number) => string

function polygon(vertices: readonly Vertex[], place: Place): string {
  return vertices.length < 3 ? '' : `M${vertices.map(({ x, y }) => place(x, y)).join('L')}Z`
}

/** All that is at least `level`, as one path. Cells wholly above it are joined along their row. */
export function bandPath(field: Field, level: number, place: Place): string {
  const { xs, ys } = field
  let path = ''
  for (let j = 0; j < ys.length - 1; j++) {
    let begun = -1
    const close = (until: number): void => {
      if (begun < 0) return
      const [x0, x1, y0, y1] = [xs[begun]!, xs[until]!, ys[j]!, ys[j + 1]!]
      path += `M${place(x0, y0)}L${place(x1, y0)}L${place(x1, y1)}L${place(x0, y1)}Z`
      begun = -1
    }
    for (let i = 0; i < xs.length - 1; i++) {
      const cell = corners(field, i, j)
      if (cell.every(({ v }) => v >= level)) {
        if (begun < 0) begun = i
        continue
      }
      close(i)
      if (cell.some(({ v }) => Number.isNaN(v)) || cell.every(({ v }) => v < level)) continue
      for (const triangle of trianglesOf(cell)) path += polygon(clipped(triangle, level), place)
    }
    close(xs.length - 1)
  }
  return path
}

/** Cells with a corner that has no solution. */
export function gapPath(field: Field, place: Place): string {
  const zeros = field.values.map((v) => (Number.isNaN(v) ? 1 : 0))
  let path = ''
  for (let j = 0; j < field.ys.length - 1; j++)
    for (let i = 0; i < field.xs.length - 1; i++) {
      const cell = corners({ ...field, values: zeros }, i, j)
      if (cell.some(({ v }) => v === 1)) path += polygon(cell, place)
    }
  return path
}

export interface Contour {
  readonly path: string
  /** Middle of the piece that lies nearest to the rising diagonal, for its label; undefined where the contour is not in the field. */
  readonly label: { readonly x: number; readonly y: number } | undefined
}

/** The line on which the field is `level`. */
export function contourOf(field: Field, level: number, place: Place): Contour {
  const { xs, ys } = field
  const across = (x: number): number => (x - xs[0]!) / (xs.at(-1)! - xs[0]!)
  const along = (y: number): number => (y - ys[0]!) / (ys.at(-1)! - ys[0]!)
  let path = ''
  let label: Contour['label']
  let nearest = Infinity
  for (let j = 0; j < ys.length - 1; j++)
    for (let i = 0; i < xs.length - 1; i++) {
      const cell = corners(field, i, j)
      if (cell.some(({ v }) => Number.isNaN(v))) continue
      for (const triangle of trianglesOf(cell)) {
        const [a, b] = triangle.flatMap((from, k) => {
          const to = triangle[(k + 1) % 3]!
          return from.v >= level !== to.v >= level ? [crossing(from, to, level)] : []
        })
        if (!a || !b) continue
        path += `M${place(a.x, a.y)}L${place(b.x, b.y)}`
        const middle = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }
        // labels keep off the edges
        const edge = Math.min(across(middle.x), 1 - across(middle.x), along(middle.y), 1 - along(middle.y))
        const distance = Math.abs(across(middle.x) - along(middle.y)) + (edge < 0.08 ? 1 : 0)
        if (distance < nearest) {
          nearest = distance
          label = middle
        }
      }
    }
  return { path, label: nearest < 1 ? label : undefined }
}

/** Between its points the field is taken as bilinear; NaN outside it and beside a point without a solution. */
export function fieldAt({ xs, ys, values }: Field, x: number, y: number): number {
  const cell = (axis: readonly number[], value: number): { k: number; t: number } | undefined => {
    if (!(value >= axis[0]! - 1e-9 && value <= axis.at(-1)! + 1e-9)) return undefined
    const next = axis.findIndex((v, n) => n > 0 && v >= value)
    const k = Math.max(0, (next < 0 ? axis.length - 1 : next) - 1)
    return { k, t: Math.min(1, Math.max(0, (value - axis[k]!) / (axis[k + 1]! - axis[k]!))) }
  }
  const column = cell(xs, x)
  const row = cell(ys, y)
  if (!column || !row) return Number.NaN
  const v = (i: number, j: number): number => values[j * xs.length + i]!
  const { k: i, t } = column
  const { k: j, t: s } = row
  // a point on the grid does not depend on its neighbours
  const blend = (a: number, b: number, share: number): number =>
    share === 0 ? a : share === 1 ? b : a + share * (b - a)
  return blend(blend(v(i, j), v(i + 1, j), t), s === 0 ? 0 : blend(v(i, j + 1), v(i + 1, j + 1), t), s)
}
