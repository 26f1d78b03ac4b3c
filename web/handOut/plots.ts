/** The plots on the page that can be copied out: each frame enters itself while it is there. */
import { onBeforeUnmount, onMounted, shallowReactive } from 'vue'
import type { Ref } from 'vue'
import type { Cell } from './csv.ts'

export interface CopiedPlot {
  readonly element: Element
  title(): string
  /** Set where designs are told apart by their marks alone, whose names the page gives elsewhere. */
  readonly needsKey?: boolean
  /** What is drawn as rows, the head first; a plot may have several sheets. */
  sheets(): readonly { readonly name: string; readonly rows: readonly (readonly Cell[])[] }[]
}

const plots = shallowReactive(new Set<CopiedPlot>())

export const plotsOnPage = (): CopiedPlot[] =>
  [...plots].toSorted((a, b) =>
    a.element.compareDocumentPosition(b.element) & Node.DOCUMENT_POSITION_FOLLOWING ? -1 : 1,
  )

/** Offers the plot in `frame` for copying out. */
export function usePlotCopy(frame: Readonly<Ref<Element | null>>, plot: Omit<CopiedPlot, 'element'>): void {
  let entered: CopiedPlot | undefined
  onMounted(() => {
    if (!frame.value) return
    entered = { ...plot, element: frame.value }
    plots.add(entered)
  })
  onBeforeUnmount(() => entered && plots.delete(entered))
}
