/** Every operating point that a comparison prints, with what it takes to rebuild it from the printed circuit alone. */
import type { Design, Overrides, Point } from '../../../engine/compare/comparison.ts'

export interface PrintedPoint {
  /** Where it stands in the comparison. */
  readonly name: string
  readonly point: Point
  readonly overrides: Overrides
}

/** Operating points, worst corners (with the other end of a difference), corners of shortfalls. */
export function printedPoints(design: Design): PrintedPoint[] {
  const nominal = (design.operatingPoints ?? []).map((point, k) => ({
    name: `operatingPoints[${k}]`,
    point,
    overrides: {},
  }))
  const corners = [
    ...Object.entries(design.worst ?? {}).map(([name, corner]) => ({ name: `worst.${name}`, corner })),
    ...design.shortfalls.flatMap(({ requirement, corner }) =>
      corner === undefined ? [] : [{ name: `shortfall of ${requirement}`, corner }],
    ),
  ].flatMap(({ name, corner }) => [
    { name, point: corner.point, overrides: corner.overrides },
    ...(corner.against === undefined
      ? []
      : [
          {
            name: `${name}, other end`,
            point: corner.against,
            overrides: ofOtherEnd(design, corner.overrides, corner.against),
          },
        ]),
  ])
  return [...nominal, ...corners]
}

/**
 * The board is the same at the other end of a difference, but a leakage is at another temperature: its value there is the
 * current that the point prints for it.
 */
function ofOtherEnd(design: Design, overrides: Overrides, point: Point): Overrides {
  const leaking = (design.circuit?.elements ?? []).filter(
    ({ id, kind }) => kind === 'current-source' && id !== 'load' && overrides[id] !== undefined,
  )
  return {
    ...overrides,
    ...Object.fromEntries(leaking.map(({ id }) => [id, { value: point.currents[id]?.[0] ?? NaN }])),
  }
}
