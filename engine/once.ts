/** Worked out when first asked for, and then remembered. */
export function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined
  return () => (made ??= { value: make() }).value
}
