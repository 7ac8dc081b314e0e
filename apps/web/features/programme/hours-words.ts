/** Hundredths of an hour with one decimal, as pages write hours; null where nothing is known. */
export const hoursWords = (hundredths: number | null | undefined): string | null =>
  hundredths == null ? null : `${(hundredths / 100).toFixed(1)} h`.replace('-', '\u2212');
