/** The comparison with every detail as text, worked out by a worker of its own, so that nothing on screen is given up for it. */
import type { Study } from '../../engine/requirements/study.ts'
import { createEngineClient } from '../engineClient.ts'
import type { EngineClient } from '../engineClient.ts'

let client: EngineClient | undefined

/** What the headless run prints of this study. */
export async function reportText(study: Study, own?: EngineClient): Promise<string> {
  client ??= createEngineClient()
  const report = await (own ?? client).run('report', study, () => {})
  return `${JSON.stringify(report, null, 2)}\n`
}
