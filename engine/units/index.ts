/** Values with units: reading, writing, preferred numbers, dimensions, temperature and decibel scales. */
export { parseQuantity, type Parsed } from './parse.ts'
export { entryText, formatQuantity, formatValueCode } from './format.ts'
export { PREFIXES, type Prefix } from './prefixes.ts'
export {
  PREFERRED,
  preferredAbove,
  preferredBelow,
  preferredNearest,
  preferredValues,
  type PreferredSeries,
} from './series.ts'
export { decibels, fromDecibels, toCelsius, toKelvin, ZERO_CELSIUS } from './scales.ts'
export {
  dimensionOf,
  DIMENSIONLESS,
  divide,
  multiply,
  power,
  sameDimension,
  unitOf,
  type Dimension,
} from './dimensions.ts'
export { capital, lower } from './words.ts'
