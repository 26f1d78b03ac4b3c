/** First letters. */

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** A label in the middle of a sentence. */
export const lower = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1)
