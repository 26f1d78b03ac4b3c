/**
 * What the data sheets say, point by point. `plot` values were read by eye from typical curves, about ±10 %;
 * the sheet of each part is named by its row in `rows.ts`.
 */
import type { SafePoint, SheetPoints } from './row.ts'

/** onsemi BC546/D Rev.8 Aug 2021. */
export const BC547B: { readonly points: SheetPoints; readonly safeArea: readonly SafePoint[] } = {
  points: {
    hFE: [
      { Ic: 1e-5, Vce: 5, Tj: 25, typ: 150, how: 'table' },
      { Ic: 0.002, Vce: 5, Tj: 25, min: 200, typ: 290, max: 450, how: 'table' },
      { Ic: 0.1, Vce: 5, Tj: 25, typ: 180, how: 'table' },
    ],
    VBE: [
      { Ic: 0.002, Vce: 5, Tj: 25, min: 0.55, max: 0.7, how: 'table' },
      { Ic: 0.01, Vce: 5, Tj: 25, max: 0.77, how: 'table' },
      { Ic: 0.0001, Vce: 10, Tj: 25, typ: 0.57, how: 'plot' },
      { Ic: 0.001, Vce: 10, Tj: 25, typ: 0.62, how: 'plot' },
      { Ic: 0.01, Vce: 10, Tj: 25, typ: 0.71, how: 'plot' },
      { Ic: 0.05, Vce: 10, Tj: 25, typ: 0.84, how: 'plot' },
      { Ic: 0.1, Vce: 10, Tj: 25, typ: 0.93, how: 'plot' },
    ],
    VCEsat: [
      { Ic: 0.01, Ib: 0.0005, typ: 0.09, max: 0.25, how: 'table' },
      { Ic: 0.1, Ib: 0.005, typ: 0.2, max: 0.6, how: 'table' },
    ],
    dVBEdT: [],
  },
  safeArea: [],
}

/** onsemi 2N3903/D Rev.8 Aug 2012. */
export const Q2N3904: { readonly points: SheetPoints; readonly safeArea: readonly SafePoint[] } = {
  points: {
    hFE: [
      { Ic: 0.0001, Vce: 1, Tj: 25, min: 40, how: 'table' },
      { Ic: 0.001, Vce: 1, Tj: 25, min: 70, how: 'table' },
      { Ic: 0.01, Vce: 1, Tj: 25, min: 100, max: 300, how: 'table' },
      { Ic: 0.05, Vce: 1, Tj: 25, min: 60, how: 'table' },
      { Ic: 0.1, Vce: 1, Tj: 25, min: 30, how: 'table' },
      { Ic: 0.0001, Vce: 1, Tj: 25, typ: 90, how: 'plot' },
      { Ic: 0.001, Vce: 1, Tj: 25, typ: 158, how: 'plot' },
      { Ic: 0.003, Vce: 1, Tj: 25, typ: 186, how: 'plot' },
      { Ic: 0.01, Vce: 1, Tj: 25, typ: 200, how: 'plot' },
      { Ic: 0.03, Vce: 1, Tj: 25, typ: 160, how: 'plot' },
      { Ic: 0.05, Vce: 1, Tj: 25, typ: 110, how: 'plot' },
      { Ic: 0.1, Vce: 1, Tj: 25, typ: 56, how: 'plot' },
      { Ic: 0.2, Vce: 1, Tj: 25, typ: 22, how: 'plot' },
    ],
    VBE: [
      { Ic: 0.001, Vce: 1, Tj: 25, typ: 0.65, how: 'plot' },
      { Ic: 0.01, Vce: 1, Tj: 25, typ: 0.72, how: 'plot' },
      { Ic: 0.05, Vce: 1, Tj: 25, typ: 0.8, how: 'plot' },
      { Ic: 0.1, Vce: 1, Tj: 25, typ: 0.87, how: 'plot' },
    ],
    VCEsat: [
      { Ic: 0.01, Ib: 0.001, max: 0.2, how: 'table' },
      { Ic: 0.05, Ib: 0.005, max: 0.3, how: 'table' },
    ],
    dVBEdT: [],
  },
  safeArea: [],
}

/** onsemi P2N2222A/D Rev.7 Jan 2013. */
export const P2N2222A: { readonly points: SheetPoints; readonly safeArea: readonly SafePoint[] } = {
  points: {
    hFE: [
      { Ic: 0.0001, Vce: 10, Tj: 25, min: 35, how: 'table' },
      { Ic: 0.001, Vce: 10, Tj: 25, min: 50, how: 'table' },
      { Ic: 0.01, Vce: 10, Tj: 25, min: 75, how: 'table' },
      { Ic: 0.15, Vce: 10, Tj: 25, min: 100, max: 300, how: 'table' },
      { Ic: 0.5, Vce: 10, Tj: 25, min: 40, how: 'table' },
      { Ic: 0.15, Vce: 1, Tj: 25, min: 50, how: 'table' },
      { Ic: 0.0001, Vce: 10, Tj: 25, typ: 105, how: 'plot' },
      { Ic: 0.001, Vce: 10, Tj: 25, typ: 150, how: 'plot' },
      { Ic: 0.01, Vce: 10, Tj: 25, typ: 215, how: 'plot' },
      { Ic: 0.05, Vce: 10, Tj: 25, typ: 260, how: 'plot' },
      { Ic: 0.15, Vce: 10, Tj: 25, typ: 240, how: 'plot' },
      { Ic: 0.5, Vce: 10, Tj: 25, typ: 110, how: 'plot' },
      { Ic: 0.0001, Vce: 1, Tj: 25, typ: 95, how: 'plot' },
      { Ic: 0.001, Vce: 1, Tj: 25, typ: 140, how: 'plot' },
      { Ic: 0.01, Vce: 1, Tj: 25, typ: 190, how: 'plot' },
      { Ic: 0.05, Vce: 1, Tj: 25, typ: 225, how: 'plot' },
      { Ic: 0.15, Vce: 1, Tj: 25, typ: 180, how: 'plot' },
      { Ic: 0.5, Vce: 1, Tj: 25, typ: 42, how: 'plot' },
    ],
    VBE: [],
    VCEsat: [
      { Ic: 0.15, Ib: 0.015, max: 0.3, how: 'table' },
      { Ic: 0.5, Ib: 0.05, max: 1, how: 'table' },
    ],
    dVBEdT: [],
  },
  safeArea: [],
}

/** Continental Device India BC337/BC327. */
export const BC337: { readonly points: SheetPoints; readonly safeArea: readonly SafePoint[] } = {
  points: {
    hFE: [
      { Ic: 0.1, Vce: 1, Tj: 25, min: 100, max: 600, how: 'table' },
      { Ic: 0.5, Vce: 1, Tj: 25, min: 40, how: 'table' },
    ],
    VBE: [{ Ic: 0.5, Vce: 1, Tj: 25, max: 1.2, how: 'table' }],
    VCEsat: [{ Ic: 0.5, Ib: 0.05, max: 0.7, how: 'table' }],
    dVBEdT: [],
  },
  safeArea: [],
}

/** ST BD135-BD136-BD139-BD140 Rev.5 May 2008. */
export const BD139: { readonly points: SheetPoints; readonly safeArea: readonly SafePoint[] } = {
  points: {
    hFE: [
      { Ic: 0.005, Vce: 2, Tj: 25, min: 25, how: 'table' },
      { Ic: 0.15, Vce: 2, Tj: 25, min: 40, max: 250, how: 'table' },
      { Ic: 0.5, Vce: 2, Tj: 25, min: 25, how: 'table' },
    ],
    VBE: [{ Ic: 0.5, Vce: 2, Tj: 25, max: 1, how: 'table' }],
    VCEsat: [{ Ic: 0.5, Ib: 0.05, max: 0.5, how: 'table' }],
    dVBEdT: [],
  },
  safeArea: [
    { Vce: 8.3, Ic: 1.5 },
    { Vce: 21, Ic: 0.6 },
    { Vce: 60, Ic: 0.083 },
    { Vce: 80, Ic: 0.06 },
  ],
}

/** onsemi TIP31A/D Rev.16 Sep 2015. */
export const TIP31C: { readonly points: SheetPoints; readonly safeArea: readonly SafePoint[] } = {
  points: {
    hFE: [
      { Ic: 1, Vce: 4, Tj: 25, min: 25, how: 'table' },
      { Ic: 3, Vce: 4, Tj: 25, min: 10, max: 50, how: 'table' },
      { Ic: 0.03, Vce: 2, Tj: 25, typ: 128, how: 'plot' },
      { Ic: 0.1, Vce: 2, Tj: 25, typ: 142, how: 'plot' },
      { Ic: 0.3, Vce: 2, Tj: 25, typ: 115, how: 'plot' },
      { Ic: 0.5, Vce: 2, Tj: 25, typ: 97, how: 'plot' },
      { Ic: 1, Vce: 2, Tj: 25, typ: 65, how: 'plot' },
      { Ic: 2, Vce: 2, Tj: 25, typ: 38, how: 'plot' },
      { Ic: 3, Vce: 2, Tj: 25, typ: 25, how: 'plot' },
      { Ic: 0.1, Vce: 2, Tj: 150, typ: 215, how: 'plot' },
      { Ic: 1, Vce: 2, Tj: 150, typ: 66, how: 'plot' },
      { Ic: 3, Vce: 2, Tj: 150, typ: 27, how: 'plot' },
      { Ic: 0.1, Vce: 2, Tj: -55, typ: 80, how: 'plot' },
      { Ic: 1, Vce: 2, Tj: -55, typ: 47, how: 'plot' },
      { Ic: 3, Vce: 2, Tj: -55, typ: 21, how: 'plot' },
    ],
    VBE: [
      { Ic: 3, Vce: 4, Tj: 25, max: 1.8, how: 'table' },
      { Ic: 0.01, Vce: 2, Tj: 25, typ: 0.53, how: 'plot' },
      { Ic: 0.1, Vce: 2, Tj: 25, typ: 0.65, how: 'plot' },
      { Ic: 0.5, Vce: 2, Tj: 25, typ: 0.77, how: 'plot' },
      { Ic: 1, Vce: 2, Tj: 25, typ: 0.86, how: 'plot' },
      { Ic: 2, Vce: 2, Tj: 25, typ: 1.04, how: 'plot' },
      { Ic: 3, Vce: 2, Tj: 25, typ: 1.2, how: 'plot' },
    ],
    VCEsat: [
      { Ic: 3, Ib: 0.375, max: 1.2, how: 'table' },
      { Ic: 1, Ib: 0.1, typ: 0.2, how: 'plot' },
      { Ic: 3, Ib: 0.3, typ: 0.5, how: 'plot' },
    ],
    dVBEdT: [
      { Ic: 0.01, from: 25, to: 150, typ: -0.0021, how: 'plot' },
      { Ic: 0.1, from: 25, to: 150, typ: -0.00185, how: 'plot' },
      { Ic: 1, from: 25, to: 150, typ: -0.00125, how: 'plot' },
      { Ic: 3, from: 25, to: 150, typ: -0.0005, how: 'plot' },
    ],
  },
  safeArea: [
    { Vce: 13.3, Ic: 3 },
    { Vce: 40, Ic: 1 },
    { Vce: 60, Ic: 0.38 },
    { Vce: 80, Ic: 0.2 },
    { Vce: 100, Ic: 0.12 },
  ],
}

/** onsemi TIP41A/D Rev.6 Sep 2005. */
export const TIP41C: { readonly points: SheetPoints; readonly safeArea: readonly SafePoint[] } = {
  points: {
    hFE: [
      { Ic: 0.3, Vce: 4, Tj: 25, min: 30, how: 'table' },
      { Ic: 3, Vce: 4, Tj: 25, min: 15, max: 75, how: 'table' },
      { Ic: 0.06, Vce: 2, Tj: 25, typ: 96, how: 'plot' },
      { Ic: 0.2, Vce: 2, Tj: 25, typ: 102, how: 'plot' },
      { Ic: 0.5, Vce: 2, Tj: 25, typ: 90, how: 'plot' },
      { Ic: 1, Vce: 2, Tj: 25, typ: 72, how: 'plot' },
      { Ic: 2, Vce: 2, Tj: 25, typ: 48, how: 'plot' },
      { Ic: 3, Vce: 2, Tj: 25, typ: 35, how: 'plot' },
      { Ic: 4, Vce: 2, Tj: 25, typ: 27, how: 'plot' },
      { Ic: 6, Vce: 2, Tj: 25, typ: 17, how: 'plot' },
      { Ic: 0.1, Vce: 2, Tj: 150, typ: 250, how: 'plot' },
      { Ic: 1, Vce: 2, Tj: 150, typ: 110, how: 'plot' },
      { Ic: 6, Vce: 2, Tj: 150, typ: 17, how: 'plot' },
      { Ic: 0.1, Vce: 2, Tj: -55, typ: 25, how: 'plot' },
      { Ic: 1, Vce: 2, Tj: -55, typ: 23, how: 'plot' },
      { Ic: 6, Vce: 2, Tj: -55, typ: 11, how: 'plot' },
    ],
    VBE: [
      { Ic: 6, Vce: 4, Tj: 25, max: 2, how: 'table' },
      { Ic: 0.1, Vce: 4, Tj: 25, typ: 0.64, how: 'plot' },
      { Ic: 0.5, Vce: 4, Tj: 25, typ: 0.74, how: 'plot' },
      { Ic: 1, Vce: 4, Tj: 25, typ: 0.79, how: 'plot' },
      { Ic: 3, Vce: 4, Tj: 25, typ: 1.03, how: 'plot' },
      { Ic: 6, Vce: 4, Tj: 25, typ: 1.38, how: 'plot' },
    ],
    VCEsat: [
      { Ic: 6, Ib: 0.6, max: 1.5, how: 'table' },
      { Ic: 1, Ib: 0.1, typ: 0.12, how: 'plot' },
      { Ic: 3, Ib: 0.3, typ: 0.34, how: 'plot' },
      { Ic: 6, Ib: 0.6, typ: 0.7, how: 'plot' },
    ],
    dVBEdT: [
      { Ic: 0.1, from: 25, to: 150, typ: -0.0019, how: 'plot' },
      { Ic: 1, from: 25, to: 150, typ: -0.0015, how: 'plot' },
      { Ic: 3, from: 25, to: 150, typ: -0.00075, how: 'plot' },
    ],
  },
  safeArea: [
    { Vce: 10.5, Ic: 6 },
    { Vce: 32, Ic: 2 },
    { Vce: 60, Ic: 0.5 },
    { Vce: 80, Ic: 0.26 },
    { Vce: 100, Ic: 0.17 },
  ],
}

/** onsemi MJE2955T/D Rev.12 Jan 2015. */
export const MJE3055T: { readonly points: SheetPoints; readonly safeArea: readonly SafePoint[] } = {
  points: {
    hFE: [
      { Ic: 4, Vce: 4, Tj: 25, min: 20, max: 100, how: 'table' },
      { Ic: 10, Vce: 4, Tj: 25, min: 5, how: 'table' },
      { Ic: 0.01, Vce: 2, Tj: 25, typ: 50, how: 'plot' },
      { Ic: 0.1, Vce: 2, Tj: 25, typ: 100, how: 'plot' },
      { Ic: 0.2, Vce: 2, Tj: 25, typ: 105, how: 'plot' },
      { Ic: 0.5, Vce: 2, Tj: 25, typ: 98, how: 'plot' },
      { Ic: 1, Vce: 2, Tj: 25, typ: 80, how: 'plot' },
      { Ic: 2, Vce: 2, Tj: 25, typ: 58, how: 'plot' },
      { Ic: 5, Vce: 2, Tj: 25, typ: 26, how: 'plot' },
      { Ic: 10, Vce: 2, Tj: 25, typ: 11.5, how: 'plot' },
      { Ic: 0.1, Vce: 2, Tj: 150, typ: 160, how: 'plot' },
      { Ic: 1, Vce: 2, Tj: 150, typ: 105, how: 'plot' },
      { Ic: 5, Vce: 2, Tj: 150, typ: 27, how: 'plot' },
      { Ic: 0.1, Vce: 2, Tj: -55, typ: 50, how: 'plot' },
      { Ic: 1, Vce: 2, Tj: -55, typ: 50, how: 'plot' },
      { Ic: 5, Vce: 2, Tj: -55, typ: 25, how: 'plot' },
    ],
    VBE: [
      { Ic: 4, Vce: 4, Tj: 25, max: 1.8, how: 'table' },
      { Ic: 0.1, Vce: 2, Tj: 25, typ: 0.61, how: 'plot' },
      { Ic: 0.5, Vce: 2, Tj: 25, typ: 0.68, how: 'plot' },
      { Ic: 1, Vce: 2, Tj: 25, typ: 0.72, how: 'plot' },
      { Ic: 2, Vce: 2, Tj: 25, typ: 0.8, how: 'plot' },
      { Ic: 5, Vce: 2, Tj: 25, typ: 1.05, how: 'plot' },
      { Ic: 8, Vce: 2, Tj: 25, typ: 1.32, how: 'plot' },
    ],
    VCEsat: [
      { Ic: 4, Ib: 0.4, max: 1.1, how: 'table' },
      { Ic: 10, Ib: 3.3, max: 8, how: 'table' },
      { Ic: 1, Ib: 0.1, typ: 0.09, how: 'plot' },
      { Ic: 4, Ib: 0.4, typ: 0.32, how: 'plot' },
      { Ic: 10, Ib: 1, typ: 0.8, how: 'plot' },
    ],
    dVBEdT: [],
  },
  safeArea: [
    { Vce: 7.5, Ic: 10 },
    { Vce: 37, Ic: 2 },
    { Vce: 60, Ic: 0.2 },
  ],
}

/** onsemi 2N3055/D Rev.6 Dec 2005. */
export const Q2N3055: { readonly points: SheetPoints; readonly safeArea: readonly SafePoint[] } = {
  points: {
    hFE: [
      { Ic: 4, Vce: 4, Tj: 25, min: 20, max: 70, how: 'table' },
      { Ic: 10, Vce: 4, Tj: 25, min: 5, how: 'table' },
      { Ic: 0.1, Vce: 4, Tj: 25, typ: 115, how: 'plot' },
      { Ic: 0.3, Vce: 4, Tj: 25, typ: 120, how: 'plot' },
      { Ic: 1, Vce: 4, Tj: 25, typ: 92, how: 'plot' },
      { Ic: 2, Vce: 4, Tj: 25, typ: 62, how: 'plot' },
      { Ic: 3, Vce: 4, Tj: 25, typ: 46, how: 'plot' },
      { Ic: 5, Vce: 4, Tj: 25, typ: 29, how: 'plot' },
      { Ic: 10, Vce: 4, Tj: 25, typ: 12, how: 'plot' },
      { Ic: 0.1, Vce: 4, Tj: 150, typ: 220, how: 'plot' },
      { Ic: 1, Vce: 4, Tj: 150, typ: 125, how: 'plot' },
      { Ic: 5, Vce: 4, Tj: 150, typ: 28, how: 'plot' },
      { Ic: 0.1, Vce: 4, Tj: -55, typ: 54, how: 'plot' },
      { Ic: 1, Vce: 4, Tj: -55, typ: 60, how: 'plot' },
      { Ic: 5, Vce: 4, Tj: -55, typ: 28, how: 'plot' },
    ],
    VBE: [
      { Ic: 0.1, Vce: 4, Tj: 25, typ: 0.62, how: 'plot' },
      { Ic: 0.5, Vce: 4, Tj: 25, typ: 0.68, how: 'plot' },
      { Ic: 1, Vce: 4, Tj: 25, typ: 0.72, how: 'plot' },
      { Ic: 2, Vce: 4, Tj: 25, typ: 0.79, how: 'plot' },
      { Ic: 3, Vce: 4, Tj: 25, typ: 0.87, how: 'plot' },
      { Ic: 5, Vce: 4, Tj: 25, typ: 1.02, how: 'plot' },
      { Ic: 4, Vce: 4, Tj: 25, max: 1.5, how: 'table' },
    ],
    VCEsat: [
      { Ic: 1, Ib: 0.1, typ: 0.1, how: 'plot' },
      { Ic: 4, Ib: 0.4, typ: 0.3, how: 'plot' },
      { Ic: 10, Ib: 1, typ: 0.76, how: 'plot' },
      { Ic: 4, Ib: 0.4, max: 1.1, how: 'table' },
      { Ic: 10, Ib: 3.3, max: 3, how: 'table' },
    ],
    dVBEdT: [],
  },
  safeArea: [
    { Vce: 7.6, Ic: 15 },
    { Vce: 40, Ic: 2.87 },
    { Vce: 60, Ic: 0.85 },
  ],
}

/** onsemi TIP120/D Rev.9 Nov 2014. */
export const TIP120: { readonly points: SheetPoints; readonly safeArea: readonly SafePoint[] } = {
  points: {
    hFE: [
      { Ic: 0.5, Vce: 3, Tj: 25, min: 1000, how: 'table' },
      { Ic: 3, Vce: 3, Tj: 25, min: 1000, how: 'table' },
      { Ic: 0.1, Vce: 4, Tj: 25, typ: 520, how: 'plot' },
      { Ic: 0.2, Vce: 4, Tj: 25, typ: 900, how: 'plot' },
      { Ic: 0.5, Vce: 4, Tj: 25, typ: 1900, how: 'plot' },
      { Ic: 1, Vce: 4, Tj: 25, typ: 3300, how: 'plot' },
      { Ic: 2, Vce: 4, Tj: 25, typ: 4500, how: 'plot' },
      { Ic: 3, Vce: 4, Tj: 25, typ: 4400, how: 'plot' },
      { Ic: 5, Vce: 4, Tj: 25, typ: 2800, how: 'plot' },
      { Ic: 8, Vce: 4, Tj: 25, typ: 1300, how: 'plot' },
    ],
    VBE: [
      { Ic: 3, Vce: 3, Tj: 25, max: 2.5, how: 'table' },
      { Ic: 0.1, Vce: 4, Tj: 25, typ: 1.25, how: 'plot' },
      { Ic: 0.5, Vce: 4, Tj: 25, typ: 1.36, how: 'plot' },
      { Ic: 1, Vce: 4, Tj: 25, typ: 1.45, how: 'plot' },
      { Ic: 2, Vce: 4, Tj: 25, typ: 1.58, how: 'plot' },
      { Ic: 3, Vce: 4, Tj: 25, typ: 1.72, how: 'plot' },
      { Ic: 5, Vce: 4, Tj: 25, typ: 2.05, how: 'plot' },
    ],
    VCEsat: [
      { Ic: 3, Ib: 0.012, max: 2, how: 'table' },
      { Ic: 5, Ib: 0.02, max: 4, how: 'table' },
      { Ic: 1, Ib: 0.004, typ: 0.85, how: 'plot' },
      { Ic: 3, Ib: 0.012, typ: 1.12, how: 'plot' },
      { Ic: 5, Ib: 0.02, typ: 1.45, how: 'plot' },
    ],
    dVBEdT: [],
  },
  safeArea: [
    { Vce: 13, Ic: 5 },
    { Vce: 20, Ic: 3.2 },
    { Vce: 60, Ic: 0.55 },
  ],
}

/** onsemi TIP120/D Rev.9 Nov 2014. */
export const TIP122: { readonly points: SheetPoints; readonly safeArea: readonly SafePoint[] } = {
  points: {
    hFE: [
      { Ic: 0.5, Vce: 3, Tj: 25, min: 1000, how: 'table' },
      { Ic: 3, Vce: 3, Tj: 25, min: 1000, how: 'table' },
      { Ic: 0.1, Vce: 4, Tj: 25, typ: 520, how: 'plot' },
      { Ic: 0.2, Vce: 4, Tj: 25, typ: 900, how: 'plot' },
      { Ic: 0.5, Vce: 4, Tj: 25, typ: 1900, how: 'plot' },
      { Ic: 1, Vce: 4, Tj: 25, typ: 3300, how: 'plot' },
      { Ic: 2, Vce: 4, Tj: 25, typ: 4500, how: 'plot' },
      { Ic: 3, Vce: 4, Tj: 25, typ: 4400, how: 'plot' },
      { Ic: 5, Vce: 4, Tj: 25, typ: 2800, how: 'plot' },
      { Ic: 8, Vce: 4, Tj: 25, typ: 1300, how: 'plot' },
    ],
    VBE: [
      { Ic: 3, Vce: 3, Tj: 25, max: 2.5, how: 'table' },
      { Ic: 0.1, Vce: 4, Tj: 25, typ: 1.25, how: 'plot' },
      { Ic: 0.5, Vce: 4, Tj: 25, typ: 1.36, how: 'plot' },
      { Ic: 1, Vce: 4, Tj: 25, typ: 1.45, how: 'plot' },
      { Ic: 2, Vce: 4, Tj: 25, typ: 1.58, how: 'plot' },
      { Ic: 3, Vce: 4, Tj: 25, typ: 1.72, how: 'plot' },
      { Ic: 5, Vce: 4, Tj: 25, typ: 2.05, how: 'plot' },
    ],
    VCEsat: [
      { Ic: 3, Ib: 0.012, max: 2, how: 'table' },
      { Ic: 5, Ib: 0.02, max: 4, how: 'table' },
      { Ic: 1, Ib: 0.004, typ: 0.85, how: 'plot' },
      { Ic: 3, Ib: 0.012, typ: 1.12, how: 'plot' },
      { Ic: 5, Ib: 0.02, typ: 1.45, how: 'plot' },
    ],
    dVBEdT: [],
  },
  safeArea: [
    { Vce: 13, Ic: 5 },
    { Vce: 20, Ic: 3.2 },
    { Vce: 60, Ic: 0.55 },
    { Vce: 100, Ic: 0.26 },
  ],
}

/** onsemi BC546/D Rev.8 Aug 2021; group C limits from the same table, its typical gains from memory. */
export const BC547C: { readonly points: SheetPoints; readonly safeArea: readonly SafePoint[] } = {
  points: {
    ...BC547B.points,
    hFE: [
      { Ic: 0.00001, Vce: 5, Tj: 25, typ: 270, how: 'memory' },
      { Ic: 0.002, Vce: 5, Tj: 25, min: 420, typ: 520, max: 800, how: 'table' },
      { Ic: 0.1, Vce: 5, Tj: 25, typ: 300, how: 'memory' },
    ],
  },
  safeArea: [],
}
