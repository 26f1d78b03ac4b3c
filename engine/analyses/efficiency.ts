/**
 * Efficiency as a fraction, 0 to 1: what the input gives and no part turns to heat, over what it gives. Watts in; 0 where
 * the input gives nothing. (P_out = P_in - P_heat, conservation of energy.)
 */
export const efficiencyOf = (inputPower: number, heat: number): number =>
  inputPower > 0 ? Math.max(0, (inputPower - heat) / inputPower) : 0
