import { formatHours, hundredths, type TimeInService } from './hours.ts';

/** A meter read, or one meter replaced by another, in the order it happened. */
export type MeterReading =
  | { readonly kind: 'read'; readonly reading: TimeInService }
  | {
      readonly kind: 'replaced';
      /** What the old meter showed when it came out. */
      readonly removedAt: TimeInService;
      /** What the new meter showed when it went in; it counts nothing of its own before that. */
      readonly installedAt: TimeInService;
    };

export type TimeInServiceAnswer =
  | { readonly known: true; readonly timeInService: TimeInService }
  | { readonly known: false; readonly sentence: string };

/**
 * Total time in service from the readings of one meter and its replacements.
 *
 * Formula: the starting total plus what each meter has run since it was fitted; a replacement adds
 * what the old one ran to its removal and starts the new one's count where it stood. 14 CFR 1.1
 * counts from leaving the surface to touching down: a tachometer or an engine-on meter stands in for
 * that, and the shop states which one it uses.
 *
 * @param readings in the order they were taken.
 * @param start the total and the meter as they stood before the first reading; left out, the meter
 *   has been in the aircraft since new and its reading is the total.
 * @returns the total at the last reading, or a sentence when there is none or one goes backwards.
 * @example timeInService({ readings: [{ kind: 'replaced', removedAt: parseHours('2450.3'), installedAt: parseHours('0.0') }, { kind: 'read', reading: parseHours('12.7') }] }) // → { known: true, timeInService: 246300 }
 */
export function timeInService({
  readings,
  start = { total: hundredths(0), reading: hundredths(0) },
}: {
  readonly readings: readonly MeterReading[];
  readonly start?: { readonly total: TimeInService; readonly reading: TimeInService };
}): TimeInServiceAnswer {
  if (readings.length === 0) {
    return {
      known: false,
      sentence: 'Cannot tell the time in service: enter a meter reading first',
    };
  }
  let total: number = start.total;
  let meter: number = start.reading;
  for (const entry of readings) {
    const reading = entry.kind === 'read' ? entry.reading : entry.removedAt;
    if (reading < meter) {
      return {
        known: false,
        sentence: `Cannot take the reading ${formatHours(reading)} h: the last was ${formatHours(hundredths(meter))} h, and a meter does not run backwards; check the figure, or enter that the meter was replaced`,
      };
    }
    total += reading - meter;
    meter = entry.kind === 'read' ? entry.reading : entry.installedAt;
  }
  return { known: true, timeInService: hundredths(total) };
}
