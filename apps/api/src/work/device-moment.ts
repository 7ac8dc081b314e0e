import { Refused } from '../errors.ts';
import { clientId, deviceTime, EARLIEST } from './limits.ts';

/** What a device says of itself with what it sends. */
export interface Device {
  /** An id that it made for itself. */
  id: string;
  /** What it has to add to its clock to have the shop's, milliseconds, as it measured it from the shop's answers. */
  clockOffsetMs: number;
}

/** When something happened that a device sends. */
export interface Moment {
  /** The time that counts. */
  readonly at: Date;
  /** What the device's own clock said; null where it does not know how far that is off. */
  readonly deviceAt: Date | null;
  readonly deviceId: string | null;
}

/** Two centuries: more than any clock that fell back to its first day is off. */
const MOST_OFFSET_MS = 200 * 366 * 86_400_000;

/**
 * When something happened, from what a device's clock said and how far the device knows that to be off. Nothing happened
 * after it was told of: what would lie in the future counts as now.
 *
 * @throws Refused where the time cannot be true
 */
export function momentOf(
  given: Date,
  device: Device | null | undefined,
  now: Date,
  field = 'at',
): Moment {
  if (!device) return { at: deviceTime(given, now, field), deviceAt: null, deviceId: null };
  const { clockOffsetMs: offset } = device;
  if (!Number.isFinite(offset) || Math.abs(offset) > MOST_OFFSET_MS)
    throw new Refused(
      'BAD_INPUT',
      `device.clockOffsetMs is ${offset}: needed are milliseconds, at most 200 years of them.`,
      'device.clockOffsetMs',
    );
  const at = new Date(Math.min(given.getTime() + Math.round(offset), now.getTime()));
  if (at < EARLIEST)
    throw new Refused(
      'BAD_INPUT',
      `${field} is ${given.toISOString()} by the device, ${at.toISOString()} by the shop: needed is a time from 2000 on. Set the clock of the device.`,
      field,
    );
  return { at, deviceAt: given, deviceId: clientId(device.id, 'device.id') };
}
