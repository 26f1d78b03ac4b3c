/** How each kind of model came about: shown with the part. */

export const FROM_SHEET =
  'Fitted to the sheet: gain at -55, 25 and 150 °C, VBE, VCEsat and, where plotted, the slope of VBE. VAF and BR are of ' +
  'the usual size, not from the sheet. High: 25 °C gain and VBE; medium: gain when cold or hot; low: output conductance.'

export const FROM_SHEET_25 =
  'Fitted to the sheet at 25 °C: gain, VBE and, where printed, VCEsat. VAF and the reverse parameters are of a published ' +
  'card. XTB = 1.5 (usual exponent) and a VBE slope of -2 mV/K are assumptions. High at 25 °C; low when cold or hot.'

export const FROM_SHEET_AND_CARD =
  'Gain fitted to the sheet at 25 °C. The sheet prints limits of VBE alone: VBE, VAF and the reverse parameters are of a ' +
  'published card. XTB = 1.5 and a VBE slope of -2 mV/K are assumptions. Medium at 25 °C; low when cold or hot.'

export const FROM_CARD_BC337 =
  'Published card of the same gain group (Philips), moved to the geometric mean of the group limits at 100 mA: the sheet ' +
  'prints limits alone. Base resistance at its high-current value. XTB = 1.5 and a VBE slope of -2 mV/K are assumptions. Medium.'

export const FROM_CARD_BD139 =
  'Published card (Fairchild), moved to the geometric mean of the group limits at 150 mA: the sheet prints limits alone. ' +
  'Shape over current, VBE and temperature laws are of the card. Medium.'

export const FROM_SHEET_PAIR =
  'Two transistors fitted together to the sheet of the pair at 25 °C: gain, VBE, VCEsat; the driver is the output device at a ' +
  'tenth of its size, the resistors are those that the sheet draws (about 8 kΩ and 120 Ω). XTB = 1.5 and a VBE slope of ' +
  '-2 mV/K a junction are assumptions. High at 25 °C; low when cold or hot. No maximum gain is guaranteed: the high corner is an assumption.'

export const FROM_SHEET_SISTER = FROM_SHEET + ' The slope of VBE is that of the TIP41C, the sheet having no plot of it.'
