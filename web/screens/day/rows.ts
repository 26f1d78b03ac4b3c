/** What the buttons of the load profile do to its rows. */
import { sumOfShares } from '../../../engine/requirements/index.ts'
import type { FieldState, useStudyStore } from '../../store/study.ts'

type Studies = ReturnType<typeof useStudyStore>

/** A whole day at nominal load. */
export function startRows(studies: Studies): void {
  studies.editProfile([{ load: studies.study.requirements.load.nominal, share: 1 }], 'begun')
}

/** One row more, at nominal load, for what is left of the time. */
export function addRow(studies: Studies): void {
  const { profile = [], requirements } = studies.study
  const share = Math.max(0, Number((1 - sumOfShares(profile)).toPrecision(6)))
  studies.editProfile(
    [...profile, { load: requirements.load.nominal, share }],
    `row ${profile.length + 1} added`,
    waiting(studies),
  )
}

/** Without one row; what waits in the others goes on waiting in its place. */
export function removeRow(studies: Studies, row: number): void {
  const rows = (studies.study.profile ?? []).filter((_, k) => k !== row)
  studies.editProfile(
    rows.length > 0 ? rows : undefined,
    `row ${row + 1} taken out`,
    Object.fromEntries(
      Object.entries(waiting(studies)).flatMap(([path, entry]) => {
        const [, k = '0', field = ''] = path.split('.')
        if (Number(k) === row) return []
        return [[Number(k) > row ? `profile.${Number(k) - 1}.${field}` : path, entry]]
      }),
    ),
  )
}

function waiting({ entries }: Studies): Record<string, FieldState> {
  return Object.fromEntries(Object.entries(entries).filter(([path]) => path.startsWith('profile.')))
}
