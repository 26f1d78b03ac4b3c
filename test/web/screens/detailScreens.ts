/** Mounts a screen that shows details over a client whose answers are invented and come at once. */
import { flushPromises, mount } from '@vue/test-utils'
import { createPinia, setActivePinia } from 'pinia'
import type { Component } from 'vue'
import type { Answer } from '../../../engine/compare/comparison.ts'
import type { Inspection } from '../../../engine/compare/details.ts'
import type { Study } from '../../../engine/requirements/study.ts'
import type { EngineClient } from '../../../web/engineClient.ts'
import { useAnswerStore } from '../../../web/store/answer.ts'
import { useStudyStore } from '../../../web/store/study.ts'

export async function mountDetail(
  screen: Component,
  study: Study,
  answer: Answer,
  inspectionOf: (study: Study) => Inspection,
) {
  localStorage.clear()
  setActivePinia(createPinia())
  const studies = useStudyStore()
  studies.loadStudy(study)
  const asked: string[] = []
  const client: EngineClient = {
    cancel() {},
    run: (name, input) => {
      asked.push(name)
      const of = input as { study?: Study }
      return Promise.resolve((name === 'answer' ? answer : inspectionOf(of.study!)) as never)
    },
  }
  useAnswerStore().follow(client)
  const wrapper = mount(screen, { attachTo: document.body })
  await flushPromises()
  await flushPromises()
  return { wrapper, studies, asked }
}
