/** The parts catalogue, one line a family. */
export * from './define.ts'
export * from './derating/index.ts'
export * from './reference-diode/index.ts'
export * from './resistor/index.ts'
export * from './shunt-reference/index.ts'
export * from './op-amp/index.ts'
export * from './transistor/index.ts'
