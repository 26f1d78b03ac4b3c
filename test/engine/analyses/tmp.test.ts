import { test } from 'vitest'
import { handValuesOf } from '../../../engine/analyses/handValues/index.ts'
import { isUnbuilt, needOf, sizeVariant } from '../../../engine/sizing/size.ts'
import { TOPOLOGIES } from '../../../engine/topologies/index.ts'
import { exampleStudies } from '../../fixtures/studies/examples.ts'
import { formatQuantity } from '../../../engine/units/index.ts'
test('p', () => {
  for (const study of exampleStudies()) for (const t of TOPOLOGIES) for (const v of t.variants) {
    if (!(study.title.startsWith('Mill') && v.name.includes('single-t')) && !(study.title.startsWith('Peat'))) continue
    const s = sizeVariant(v, needOf(study.requirements)); if (isUnbuilt(s)) continue
    console.log(study.title, t.name, v.name)
    const lines = s.proof.design.worked.lines()
    for (const h of handValuesOf(s.proof)) {}
    const job = handValuesOf(s.proof); let r; do { r = job.next() } while (!r.done)
    for (const h of r.value) { const l = lines.find(l => l.symbol === h.symbol)!; console.log('  ', h.symbol, formatQuantity(l.value, l.unit), formatQuantity(h.solved, l.unit), h.thermal, JSON.stringify(h.condition), h.because) }
    if (study.title.startsWith('Mill')) console.log(lines.filter(l=>l.part||l.symbol==='I_div').map(l=>l.symbol+'='+l.value+':'+l.part).join(' '))
  }
}, 200000)
