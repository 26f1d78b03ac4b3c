/** Heat by part against the input voltage as stacked areas: paths in a drawing box that all designs share. */
import { type DesignColumns, NAMED_SHARES, valueAt } from '../columns.ts'
import { type Domain, type ValueAxis, extentOf, fractionOf, roundAxis } from '../scale.ts'

/** The drawing box, stretched into its place. */
export const BOX = { width: 1000, height: 400 } as const

export interface StackArea {
  /** Place among the shares: 0 is the part with the most heat. */
  readonly share: number
  readonly label: string
  /** Empty where nothing of it is inside the axes. */
  readonly path: string
}

/** One value axis for all designs, from zero. */
export function stackAxis(designs: readonly DesignColumns[], volts: Domain): ValueAxis {
  const highest = designs.flatMap(({ input }) => extentOf(input['x']!, input['heat']!, volts)?.[1] ?? [])
  return roundAxis(0, Math.max(1e-6, ...highest), 4)
}

/** The lowest area first; each lies between the running sums on either side of it. A point without a solution leaves a gap. */
export function stackAreas({ input, shares }: DesignColumns, volts: Domain, watts: ValueAxis): StackArea[] {
  const axis = input['x']!
  const place = (k: number, value: number): string => {
    const x = fractionOf(axis[k]!, volts) * BOX.width
    return `${x.toFixed(1)} ${((1 - fractionOf(value, watts)) * BOX.height).toFixed(1)}`
  }
  return shares.map(({ label }, share) => {
    const top = input[`stack${share}`]!
    const floor = share === 0 ? undefined : input[`stack${share - 1}`]!
    let path = ''
    let run: number[] = []
    const close = (): void => {
      if (run.length > 1) {
        const upper = run.map((k) => place(k, top[k]!))
        const lower = run.toReversed().map((k) => place(k, floor?.[k] ?? 0))
        path += `M${[...upper, ...lower].join('L')}Z`
      }
      run = []
    }
    axis.forEach((x, k) => {
      if (x >= volts.min - 1e-9 && x <= volts.max + 1e-9 && Number.isFinite(top[k])) run.push(k)
      else close()
    })
    close()
    return { share, label, path }
  })
}

/** Watts of each share at an input voltage, largest part first; NaN where nothing was solved. */
export function sharesAt({ input, shares }: DesignColumns, volts: number): { label: string; watts: number }[] {
  return shares
    .slice(0, NAMED_SHARES + 1)
    .map(({ label }, k) => ({ label, watts: valueAt(input['x']!, input[`part${k}`], volts) }))
}
