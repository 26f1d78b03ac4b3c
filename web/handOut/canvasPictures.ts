/** How the canvas under an element is drawn as SVG text, by that element; the chart panel enters itself here. */
export const canvasPictures = new WeakMap<Element, () => Promise<string>>()
