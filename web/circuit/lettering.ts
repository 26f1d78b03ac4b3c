/** What is written beside the symbols: all of it, or names alone where the drawing is small. */
import { formatValueCode } from '../../engine/units/index.ts'
import type { Lettering } from './layout.ts'
import type { DrawnPart } from './parts.ts'
import { LOAD } from './parts.ts'
import type { TextLine } from './text.ts'

/** What the part list says of a part, as far as it is written into the drawing. */
export interface ListedPart {
  readonly id: string
  readonly value?: number | undefined
  readonly partNumber?: string | undefined
}

/** As broad as these become. */
const CURRENT = '88.8 mA'
const HEAT = '888 mW'
const LONGEST_TYPE = 12

/** The part number without the maker in brackets behind it. */
function typeOf({ partNumber = '' }: ListedPart): string {
  const type = partNumber.replace(/ \(.*$/u, '')
  return type.length > LONGEST_TYPE ? `${type.slice(0, LONGEST_TYPE - 1)}…` : type
}

const line = (what: TextLine['what'], text: string): TextLine => ({ what, text })

export function fullLettering(parts: readonly ListedPart[]): Lettering {
  const listed = new Map(parts.map((part) => [part.id, part]))
  return {
    letters: { size: 12, line: 13 },
    linesOf({ id, kind }: DrawnPart) {
      const part = listed.get(id)
      if (id === LOAD) return [line('name', 'Load'), line('current', CURRENT)]
      if (kind === 'capacitor') return [line('name', `${id} ${valueCode(part, 'F')}`)]
      // what an amplifier takes from its supply is none of the currents that the drawing explains
      const live = [...(kind === 'amplifier' ? [] : [line('current', CURRENT)]), line('heat', HEAT)]
      if (kind === 'resistor') return [line('name', `${id} ${valueCode(part, 'R')}`), ...live]
      const type = part ? typeOf(part) : ''
      return type === '' ? [line('name', id), ...live] : [line('name', id), line('type', type), ...live]
    },
  }
}

const valueCode = (part: ListedPart | undefined, letter: string): string =>
  part?.value === undefined ? '' : formatValueCode(part.value, letter)

export const BRIEF_LETTERING: Lettering = {
  letters: { size: 15, line: 16 },
  linesOf: ({ id }) => [line('name', id === LOAD ? 'Load' : id)],
}
