import { describe, expect, it } from 'vitest'
import { EXAMPLES } from '../../web/examples/index.ts'

describe('the built-in examples', () => {
  it('are three different jobs, each told in one sentence', () => {
    expect(EXAMPLES.length).toBe(3)
    expect(new Set(EXAMPLES.map(({ id }) => id)).size).toBe(3)
    expect(new Set(EXAMPLES.map(({ study }) => study.title)).size).toBe(3)
    for (const { story } of EXAMPLES) expect(story).toMatch(/^[A-Z][^.!?]+\.$/u)
  })

  it('weigh something and leave the output below the lowest input', () => {
    for (const { study } of EXAMPLES) {
      const total = Object.values(study.weights).reduce((sum, weight) => sum + weight, 0)
      expect(total).toBeGreaterThan(0)
      expect(study.requirements.output.voltage).toBeLessThan(study.requirements.input.min)
    }
  })
})
