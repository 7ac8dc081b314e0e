/** Inch-pounds, foot-pounds, newton metres. */
export type TorqueUnit = 'in_lb' | 'ft_lb' | 'n_m';

/**
 * One of each unit in newton metres. Exact: the pound-force is 4.4482216152605 N (0.45359237 kg times
 * 9.80665 m/s²), the inch 0.0254 m (NIST SP 811, appendix B).
 */
const newtonMetres: Record<TorqueUnit, number> = {
  in_lb: 4.448_221_615_260_5 * 0.0254,
  ft_lb: 4.448_221_615_260_5 * 0.3048,
  n_m: 1,
};

/**
 * A torque in another unit.
 *
 * @param torque in `from`, above 0.
 * @throws RangeError unless the torque is a number above 0.
 * @example convertTorque(10, 'ft_lb', 'in_lb') // → 120
 */
export function convertTorque(torque: number, from: TorqueUnit, to: TorqueUnit): number {
  needPositive(torque, 'torque');
  if (from === to) return torque;
  if (from === 'ft_lb' && to === 'in_lb') return torque * 12;
  if (from === 'in_lb' && to === 'ft_lb') return torque / 12;
  return (torque * newtonMetres[from]) / newtonMetres[to];
}

/** A wrench with something on it, as one measures it: both lengths in one unit, inches or millimetres. */
export interface TorqueArm {
  /** From the middle of the handle to the middle of the drive. */
  readonly lever: number;
  /**
   * How much an adapter in line with the wrench lengthens it; negative where it points back to the handle
   * and shortens it. An adapter square to the wrench changes nothing: 0.
   */
  readonly extension: number;
}

/**
 * What a torque wrench is set to.
 *
 * Formula: setting = (T + drag) · L / (L + E). Source: AC 43.13-1B, paragraph 7-40: the friction drag of a
 * self-locking nut, turned until just before it seats, is added to the torque wanted (c, d); an adapter
 * that changes the effective length changes the setting in proportion (h, figure 7-2).
 *
 * @param torque wanted at the fastener, above 0, in any unit; the answer is in the same.
 * @param drag friction drag in that unit, 0 or more.
 * @param arm lengths of wrench and adapter; left out: nothing on the wrench changes its length.
 * @throws RangeError where a torque or length is no such number, or the adapter reaches back to the handle.
 * @example torqueSetting({ torque: 300, arm: { lever: 10, extension: 4 } }).toFixed(2) // → '214.29'
 */
export function torqueSetting({
  torque,
  drag = 0,
  arm,
}: {
  readonly torque: number;
  readonly drag?: number;
  readonly arm?: TorqueArm;
}): number {
  needPositive(torque, 'torque');
  if (!Number.isFinite(drag) || drag < 0)
    throw new RangeError(`Cannot add a friction drag of ${drag}: give 0 or more`);
  return arm === undefined ? torque + drag : ((torque + drag) * arm.lever) / lengthOf(arm);
}

/**
 * What a fastener sees of a wrench set so: the setting times (L + E) / L. Source: as `torqueSetting`.
 *
 * @param setting of the wrench, above 0, in any unit; the answer is in the same.
 * @throws RangeError as `torqueSetting`.
 * @example torqueAtFastener({ setting: 60, arm: { lever: 12, extension: 2 } }) // → 70
 */
export function torqueAtFastener({
  setting,
  arm,
}: {
  readonly setting: number;
  readonly arm: TorqueArm;
}): number {
  needPositive(setting, 'setting');
  return (setting * lengthOf(arm)) / arm.lever;
}

function lengthOf({ lever, extension }: TorqueArm): number {
  needPositive(lever, 'lever');
  const whole = lever + extension;
  if (!Number.isFinite(extension) || whole <= 0)
    throw new RangeError(
      `Cannot use an extension of ${extension} on a lever of ${lever}: an adapter that points back is shorter than the lever`,
    );
  return whole;
}

function needPositive(value: number, name: string): void {
  if (!Number.isFinite(value) || value <= 0)
    throw new RangeError(`Cannot use a ${name} of ${value}: give a number above 0`);
}
