import type { Meter } from '../../graphql/generated/graphql.ts';

export const meterWords: Record<Meter, string> = {
  tachometer: 'Tachometer',
  engine_on: 'Engine-on meter',
  airborne: 'Airborne meter',
};

const meters = Object.keys(meterWords) as Meter[];

interface Reading {
  meter: Meter;
  readingHundredths: number;
}

/** The meters that an aircraft has been read by; all three where none was ever read. */
export function metersOf(readings: readonly Reading[]): Meter[] {
  const known = meters.filter((meter) => readings.some((reading) => reading.meter === meter));
  return known.length === 0 ? meters : known;
}

/** Hundredths of an hour as a meter shows them: 328640 is "3286.40". */
export const readingText = (hundredths: number): string => (hundredths / 100).toFixed(2);

/**
 * What was read off a meter, in hundredths of an hour; null where it is no reading.
 *
 * @example hundredthsFrom('3,286.4') // → 328640
 */
export function hundredthsFrom(text: string): number | null {
  const match = /^(\d{1,7})(?:\.(\d{1,2}))?$/.exec(text.replaceAll(/[,\s]/g, ''));
  if (match === null) return null;
  return Number(match[1]) * 100 + Number((match[2] ?? '').padEnd(2, '0'));
}
