/**
 * Hours as somebody types them, in hundredths; what cannot be read becomes −1, which the shop refuses with its sentence.
 *
 * @example hundredthsOf('1,234.5') // → 123450
 */
export function hundredthsOf(typed: string): number {
  const plain = typed.trim().replaceAll(',', '');
  return /^\d{1,6}(\.\d{1,2})?$/.test(plain) ? Math.round(Number(plain) * 100) : -1;
}

/** A whole number as it was typed; null where nothing was. */
export const countOf = (typed: string): number | null =>
  typed.trim() === '' ? null : /^\d{1,6}$/.test(typed.trim()) ? Number(typed) : 0;
