import { beforeAll, describe, expect, it, vi } from 'vitest'
import { spreadProblemOf } from '../../../engine/analyses/spread/problem.ts'
import { samplerOf } from '../../../engine/analyses/spread/samples.ts'
import type { BoardSlice, Draw, SpreadProblem } from '../../../engine/compare/boards.ts'
import { createSlicer, sizeAll } from '../../../engine/index.ts'
import { isUnbuilt } from '../../../engine/sizing/size.ts'
import { Superseded } from '../../../web/engineClient.ts'
import type { EngineClient } from '../../../web/engineClient.ts'
import { drawBoards } from '../../../web/pool/boards.ts'
import { createEnginePool, poolSize, type Task } from '../../../web/pool/enginePool.ts'
import { EXAMPLES } from '../../../web/examples/index.ts'

const BOARDS = 700
const draw: Draw = { seed: 5, method: 'random', distribution: 'uniform' }

/** A connection whose slices are solved here, each after a wait that differs from one to the next, so that they overtake each other. */
function connection(disturb: (call: number) => void = () => {}) {
  const slice = createSlicer()
  const counts: number[] = []
  let reject: ((reason: Error) => void) | undefined
  const client: EngineClient = {
    cancel: () => {
      reject?.(new Superseded('cancelled'))
      reject = undefined
    },
    run: (_name, input) =>
      new Promise((resolve, refuse) => {
        reject = refuse
        const asked = input as BoardSlice
        counts.push(asked.count)
        setTimeout(
          () => {
            try {
              disturb(counts.length)
              resolve(slice(asked) as never)
            } catch (thrown) {
              refuse(thrown as Error)
            }
          },
          (asked.from * 7) % 13,
        )
      }),
  }
  return { client, counts }
}

const drawWith = async (clients: EngineClient[], told: number[] = []) => {
  const left = [...clients]
  const pool = createEnginePool(clients.length, () => left.shift()!)
  const drawing = drawBoards(pool, [problem, undefined, problem], draw, BOARDS, ({ done }) => told.push(done))
  await drawing.done
  return drawing.run()
}

let problem: SpreadProblem
beforeAll(() => {
  const { study } = EXAMPLES[0]!
  const sized = sizeAll(study).find((one) => !isUnbuilt(one))!
  if (isUnbuilt(sized)) throw new Error('nothing to draw')
  problem = spreadProblemOf(sized.proof.design, study.requirements)
}, 60_000)

describe('a run over a pool', () => {
  it('is the same whatever the number of workers, and the same as in one go', async () => {
    const whole = samplerOf(problem, draw).take(0, BOARDS)
    for (const workers of [1, 2, 5]) {
      const clients = Array.from({ length: workers }, () => connection())
      // oxlint-disable-next-line no-await-in-loop -- one pool after the other
      const { samples, complete } = await drawWith(clients.map(({ client }) => client))
      expect(samples[0]!.values).toEqual(whole.values)
      expect(samples[2]!.outcomes).toEqual(whole.outcomes)
      expect(samples[1]).toBeUndefined()
      expect(complete).toEqual([BOARDS, 0, BOARDS])
      expect(clients.every(({ counts }) => counts.length > 0)).toBe(true)
    }
  }, 30_000)

  it('tells how far it is, up to every board', async () => {
    const told: number[] = []
    await drawWith([connection().client, connection().client], told)
    expect(told).toEqual(told.toSorted((a, b) => a - b))
    expect(told.at(-1)).toBe(2 * BOARDS)
    expect(told.length).toBeGreaterThan(3)
  }, 30_000)

  it('has a slice that broke solved again, with the same result', async () => {
    const breaking = connection((call) => {
      if (call === 2) throw new Error('The worker broke off without an answer.')
    })
    const { samples } = await drawWith([breaking.client, connection().client])
    expect(samples[0]!.values).toEqual(samplerOf(problem, draw).take(0, BOARDS).values)
  }, 30_000)

  it('gives up when a slice fails twice, and says why', async () => {
    const broken = connection(() => {
      throw new Error('out of memory')
    })
    await expect(drawWith([broken.client, connection().client])).rejects.toThrow('out of memory')
  })

  it('stops when cancelled; the boards before the first gap are there', async () => {
    const { client } = connection()
    const pool = createEnginePool(1, () => client)
    const seen = vi.fn<() => void>()
    const drawing = drawBoards(pool, [problem], draw, 100_000, () => {
      seen()
      if (seen.mock.calls.length === 3) pool.cancel()
    })
    await expect(drawing.done).rejects.toBeInstanceOf(Superseded)
    const { samples, complete } = drawing.run()
    expect(complete[0]).toBeGreaterThan(0)
    expect(complete[0]).toBeLessThan(100_000)
    const first = samples[0]!.values.subarray(0, complete[0])
    expect(first).toEqual(samplerOf(problem, draw).take(0, complete[0]!).values)
  }, 30_000)
})

describe('a pool', () => {
  it('works a queue to its end and takes no task twice', async () => {
    const taken: number[] = []
    let n = 0
    const next = (): Task | undefined => {
      const mine = n++
      return mine < 20 ? async () => void taken.push(mine) : undefined
    }
    await createEnginePool(3, () => connection().client).work(next)
    expect(taken.toSorted((a, b) => a - b)).toEqual(Array.from({ length: 20 }, (_, k) => k))
  })

  it('is superseded by the next queue', async () => {
    const pool = createEnginePool(1, () => connection().client)
    const endless = pool.work(() => () => new Promise((resolve) => setTimeout(resolve, 1)))
    const outcome = endless.catch((reason: unknown) => reason)
    await pool.work(() => undefined)
    expect(await outcome).toBeInstanceOf(Superseded)
  })

  it('has a worker a core, at least one and not too many', () => {
    expect(poolSize(2)).toBe(2)
    expect(poolSize(0)).toBe(1)
    expect(poolSize(64)).toBe(8)
  })
})
