/** The standard normal distribution turned round: from a probability to the value below which it lies. */

/** Coefficients of a polynomial, the highest power first, rounded to what a double holds. */
type Polynomial = readonly number[]

const MIDDLE_OVER: Polynomial = [
  2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946, 1971.5909503065513,
  133.14166789178438, 3.3871328727963665,
]
const MIDDLE_UNDER: Polynomial = [
  5226.495278852854, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751, 687.1870074920579,
  42.31333070160091, 1,
]
const TAIL_OVER: Polynomial = [
  0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684, 3.6478483247632045,
  5.769497221460691, 4.630337846156546, 1.4234371107496835,
]
const TAIL_UNDER: Polynomial = [
  1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008, 0.6897673349851,
  1.6763848301838038, 2.053191626637759, 1,
]
const FAR_OVER: Polynomial = [
  2.0103343992922881e-7, 2.7115555687434876e-5, 0.0012426609473880784, 0.026532189526576124, 0.29656057182850487,
  1.7848265399172913, 5.463784911164114, 6.657904643501103,
]
const FAR_UNDER: Polynomial = [
  2.0442631033899397e-15, 1.421511758316446e-7, 1.8463183175100548e-5, 0.0007868691311456133, 0.014875361290850615,
  0.1369298809227358, 0.599832206555888, 1,
]

function at(x: number, polynomial: Polynomial): number {
  let sum = 0
  for (let k = 0; k < polynomial.length; k++) sum = sum * x + polynomial[k]!
  return sum
}

/**
 * The value below which a standard normal variable lies with probability `p`, 0 < p < 1, to about 1 part in 10^16.
 * -1.959964 for 0.025. Source: M. J. Wichura, "Algorithm AS 241: The Percentage Points of the Normal Distribution",
 * Applied Statistics 37 (1988) 477, routine PPND16.
 */
export function normalQuantile(p: number): number {
  const q = p - 0.5
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q
    return (q * at(r, MIDDLE_OVER)) / at(r, MIDDLE_UNDER)
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p))
  const size = r <= 5 ? at(r - 1.6, TAIL_OVER) / at(r - 1.6, TAIL_UNDER) : at(r - 5, FAR_OVER) / at(r - 5, FAR_UNDER)
  return q < 0 ? -size : size
}
