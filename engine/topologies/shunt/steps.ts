/** The series resistor, which every shunt variant has, and what it and the shunt element must bear. */
import type { Demands, Need, Refusal } from '../define.ts'
import type { Fitted } from '../place/fitted.ts'
import { fitResistor } from '../place/resistor.ts'
import type { Step, Worked } from '../working.ts'

export const RS_LOWEST: Step = {
  is: 'Rs_lo',
  unit: 'Ω',
  quantity: 'Series resistor at its lowest',
  from: 'Rs * (1 - tol_R)',
  source: 'common practice, no source',
}

export const RS_SHORTED: Step = {
  is: 'P_short',
  unit: 'W',
  quantity: 'Series resistor heat, output shorted',
  from: 'Vin_max^2 / Rs_lo',
  source: "Joule's law",
}

/** The largest series resistor that still feeds full load, and what follows from the one taken. */
export const SERIES_RESISTOR: readonly Step[] = [
  {
    is: 'Rs_max',
    unit: 'Ω',
    quantity: 'Largest series resistor',
    from: '(Vin_min - Vz_hi) / (Iout_max + Iz_min)',
    source: 'P. Raja, Electronics Engineering, Example 3.13',
    why: 'At the lowest input and full load the diode must keep its least current.',
  },
  {
    is: 'Rs_lim',
    unit: 'Ω',
    quantity: 'Largest series resistor, its tolerance counted',
    from: 'Rs_max / (1 + tol_R)',
    source: 'common practice, no source',
  },
  {
    is: 'Rs',
    unit: 'Ω',
    quantity: 'Series resistor',
    pick: (scope, choose) => choose.preferred('R1', 'below', scope('Rs_lim')),
    says: 'preferred value at or below Rs_lim',
    source: 'IEC 60063',
    why: 'Rounded down, so that the diode stays fed.',
  },
  RS_LOWEST,
  {
    is: 'Iz_max',
    unit: 'A',
    quantity: 'Largest diode current',
    from: '(Vin_max - Vz_lo) / Rs_lo - Iout_min',
    source: 'V. K. Mehta and R. Mehta, Principles of Electronics, Examples 17.8 to 17.11 (Iz = Is - IL)',
  },
  {
    is: 'Pz_lo',
    unit: 'W',
    quantity: 'Diode heat, low diode voltage',
    from: 'Vz_lo * Iz_max',
    source: 'S. L. Kakani and K. C. Bhandari, Electronic Devices and Circuits, Example 4.13',
  },
  {
    is: 'Pz_hi',
    unit: 'W',
    quantity: 'Diode heat, high diode voltage',
    from: 'Vz_hi * ((Vin_max - Vz_hi) / Rs_lo - Iout_min)',
    source: 'S. L. Kakani and K. C. Bhandari, Electronic Devices and Circuits, Example 4.13',
    why: 'Heat may be worst at the higher voltage although the current is less.',
  },
  {
    is: 'Rs_min',
    unit: 'Ω',
    quantity: 'Smallest series resistor that the diode bears',
    from: '(Vin_max - Vz) / (Iout_min + Pz_allow / Vz)',
    source: 'P. Raja, Electronics Engineering, Example 3.13',
    why: 'Below it the diode overheats at the highest input; above Rs_max it starves. A window that is empty cannot be built.',
  },
  {
    is: 'P_Rs',
    unit: 'W',
    quantity: 'Series resistor heat',
    from: '(Vin_max - Vz_lo)^2 / Rs_lo',
    source: 'S. L. Kakani and K. C. Bhandari, Electronic Devices and Circuits, Example 4.13',
  },
  RS_SHORTED,
  {
    is: 'Is_nom',
    unit: 'A',
    quantity: 'Input current, nominal',
    from: '(Vin_nom - Vz) / Rs',
    source: 'A. P. Malvino and D. J. Bates, Electronic Principles, Example 5-1',
  },
  {
    is: 'efficiency',
    unit: '%',
    quantity: 'Efficiency at full load, by hand',
    from: 'Vout * Iout_max / (Vin_nom * Is_nom)',
    source: 'output power over input power, definition',
  },
]

/** R1 of `Rs` and `P_Rs` of the working; `lowest` in volts is the least that the output may stand at in service. */
export function fitSeriesResistor(need: Need, worked: Worked, lowest: number, demands: Demands): Fitted | Refusal {
  const { input, limits } = need.requirements
  return fitResistor(
    need,
    {
      id: 'R1',
      role: 'series resistor',
      nodes: ['in', 'out'],
      ohms: worked.value('Rs'),
      power: worked.value('P_Rs'),
      voltage: input.max - lowest,
      ...(limits.survivesShort ? { fault: { power: worked.value('P_short'), voltage: input.max } } : {}),
    },
    demands,
  )
}
