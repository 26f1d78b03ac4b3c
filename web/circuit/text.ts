/** What stands beside the symbols, and how much room is kept for it: widths must hold whatever the cursor makes of the numbers. */
import type { Box } from './symbols.ts'

/** How large the texts are, in units of the diagram. */
export interface Letters {
  readonly size: number
  /** From line to line. */
  readonly line: number
}

/** Broader than the figure face, since an exported diagram may be set in another one. */
const WIDTH_BY_SIZE = 0.56

export interface TextLine {
  readonly what: 'name' | 'type' | 'current' | 'heat'
  /** As it stands, or as broad as it may become. */
  readonly text: string
}

export type Side = 'right' | 'left' | 'above' | 'below' | 'aboveRight'

export interface TextBlock {
  readonly lines: readonly TextLine[]
  readonly side: Side
  readonly anchor: 'start' | 'middle' | 'end'
  /** Around all lines. */
  readonly box: Box
}

export const textWidth = (text: string, { size }: Letters): number => text.length * size * WIDTH_BY_SIZE

/** As broad as a voltage becomes. */
const VOLTAGE = '88.8 mV'

export const voltageSize = (letters: Letters): { width: number; height: number } => ({
  width: textWidth(VOLTAGE, letters),
  height: letters.line,
})

/** The voltages of input and output stand above the ends of the supply rail. */
export function inputTextBox(letters: Letters): Box {
  const { width, height } = voltageSize(letters)
  return { left: -4, top: -8 - height, right: width, bottom: -8 }
}

/** From the column of the load. */
export function outputTextBox(letters: Letters): Box {
  const { width, height } = voltageSize(letters)
  return { left: 6 - width, top: -8 - height, right: 6, bottom: -8 }
}

/** Clear of the symbol and of wires. */
const CLEAR = 6

/** A block of lines beside a symbol's box, both around the symbol's centre. */
export function blockBeside(symbol: Box, side: Side, lines: readonly TextLine[], letters: Letters): TextBlock {
  const width = Math.max(...lines.map(({ text }) => textWidth(text, letters)))
  const height = lines.length * letters.line
  const middle = (symbol.top + symbol.bottom) / 2
  switch (side) {
    case 'right':
      return block(lines, side, 'start', symbol.right + CLEAR, middle - height / 2, width, height)
    case 'left':
      return block(lines, side, 'end', symbol.left - CLEAR - width, middle - height / 2, width, height)
    case 'above':
      return block(lines, side, 'middle', -width / 2, symbol.top - CLEAR - height, width, height)
    case 'below':
      return block(lines, side, 'middle', -width / 2, symbol.bottom + CLEAR, width, height)
    case 'aboveRight':
    default:
      return block(lines, side, 'start', CLEAR, symbol.top - CLEAR - height, width, height)
  }
}

const block = (
  lines: readonly TextLine[],
  side: Side,
  anchor: TextBlock['anchor'],
  left: number,
  top: number,
  width: number,
  height: number,
): TextBlock => ({ lines, side, anchor, box: { left, top, right: left + width, bottom: top + height } })
