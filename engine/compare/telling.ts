/** The same job, telling how far it is where it only stopped to let others in. */
export function* telling<T, P>(job: Generator<void, T>, progress: () => P): Generator<P, T> {
  for (;;) {
    const step = job.next()
    if (step.done) return step.value
    yield progress()
  }
}
