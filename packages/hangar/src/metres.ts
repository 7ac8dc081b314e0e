declare const unit: unique symbol;

/** A length on the hangar floor, in metres. */
export type Metres = number & { readonly [unit]: 'metres' };

// Longer than any hangar's side; above it somebody has typed centimetres.
const MOST = 1000;

/**
 * Brands a length in metres: the one place where that happens.
 *
 * @throws RangeError unless it is from 0 to 1000.
 * @example metres(10.9) // → 10.9
 */
export function metres(value: number, what = 'length'): Metres {
  if (!Number.isFinite(value) || value < 0 || value > MOST) {
    throw new RangeError(`Cannot use ${value} m as ${what}: give 0 to ${MOST} m`);
  }
  return value as Metres;
}

/**
 * A length as it is written on the drawing, to 10 cm.
 *
 * @example formatMetres(metres(12)) // → '12.0 m'
 */
export function formatMetres(length: Metres): string {
  return `${length.toFixed(1)} m`;
}
