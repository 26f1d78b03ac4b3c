/**
 * How the canvas under an element is drawn as SVG text in the colours of the moment, by that element; the chart panel enters
 * itself here. What is loaded for it is loaded by the first call; the second one, which draws, waits for nothing.
 */
export const canvasPictures = new WeakMap<Element, () => Promise<() => string>>()
