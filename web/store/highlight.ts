/** The part that somebody looks at: it lights up wherever it is shown, in drawings, tables, plots and workings. */
import { shallowRef } from 'vue'
import { defineStore } from 'pinia'
import type { TopologyName } from '../../engine/compare/comparison.ts'

export interface LookedAt {
  readonly topology: TopologyName
  /** Part id; the same id in another topology is another part. */
  readonly part: string
}

/** What an element needs so that its part lights up here and everywhere: bind it with `v-bind`. */
export interface Lights {
  readonly 'data-part': string
  readonly 'data-lit': '' | undefined
  readonly onPointerenter: () => void
  readonly onPointerleave: () => void
  readonly onFocusin: () => void
  readonly onFocusout: () => void
}

export const useHighlightStore = defineStore('highlight', () => {
  const lookedAt = shallowRef<LookedAt>()

  /** No part: the pointer and the keyboard are on none. */
  function look(topology: TopologyName, part: string | undefined): void {
    lookedAt.value = part === undefined ? undefined : { topology, part }
  }

  /** Id of the part of this topology that is looked at. */
  function partOf(topology: TopologyName): string | undefined {
    return lookedAt.value?.topology === topology ? lookedAt.value.part : undefined
  }

  function lights(topology: TopologyName, part: string): Lights {
    const on = () => look(topology, part)
    const off = () => look(topology, undefined)
    return {
      'data-part': part,
      'data-lit': partOf(topology) === part ? '' : undefined,
      onPointerenter: on,
      onPointerleave: off,
      onFocusin: on,
      onFocusout: off,
    }
  }

  return { lookedAt, look, partOf, lights }
})
