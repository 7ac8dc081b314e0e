import {
  convertTorque,
  generalTorque,
  type NutKind,
  type TorqueUnit,
  torqueSetting,
} from '@fairlead/airworthiness';
import { Refused } from '../errors.ts';
import { givenQuantity, givenText } from '../given.ts';

/** A torque as a person gives it: exact decimals as text. */
export interface GivenTorque {
  torque: string;
  unit: TorqueUnit;
  drag: string | null;
  /** Both or neither, in one unit of length. */
  lever: string | null;
  extension: string | null;
}

export const unitWords: Record<TorqueUnit, string> = { in_lb: 'in-lb', ft_lb: 'ft-lb', n_m: 'N·m' };

/** What the wrench is set to: friction drag added, the adapter reckoned in; to hundredths of the unit. */
export function givenTorque(input: GivenTorque) {
  const torque = givenQuantity(input.torque, 'torque', { most: 100_000, decimals: 2 });
  const drag = givenQuantity(input.drag ?? '0', 'drag', { most: 10_000, decimals: 2, zero: true });
  const arm = givenArm(input);
  const setting = torqueSetting({
    torque: Number(torque),
    drag: Number(drag),
    ...(arm && { arm: { lever: Number(arm.lever), extension: Number(arm.extension) } }),
  });
  const rounded = setting.toFixed(2);
  if (Number(rounded) <= 0 || setting > 1_000_000)
    throw new Refused(
      'BAD_INPUT',
      `The setting comes to ${rounded} ${unitWords[input.unit]}: needed are lengths and a torque of which a wrench can be set.`,
      'extension',
    );
  return {
    torque,
    drag,
    lever: arm?.lever ?? null,
    extension: arm?.extension ?? null,
    setting: rounded,
  };
}

function givenArm({ lever, extension }: GivenTorque) {
  if (lever === null && extension === null) return null;
  if (lever === null || extension === null)
    throw new Refused(
      'BAD_INPUT',
      `An adapter was given with ${lever === null ? 'its own length alone: needed is the lever of the wrench too' : 'the lever alone: needed is how much the adapter lengthens it too, or neither'}.`,
      lever === null ? 'lever' : 'extension',
    );
  const long = givenQuantity(lever, 'lever', { most: 10_000, decimals: 2 });
  const back = extension.startsWith('-');
  const by = givenQuantity(back ? extension.slice(1) : extension, 'extension', {
    most: 10_000,
    decimals: 2,
    zero: true,
  });
  if (back && Number(by) >= Number(long))
    throw new Refused(
      'BAD_INPUT',
      `The adapter points back by ${by} on a lever of ${long}: needed is one shorter than the lever.`,
      'extension',
    );
  return { lever: long, extension: back ? `-${by}` : by };
}

/** Refuses a general torque that the table does not give for that thread and nut. The maker's own is never doubted. */
export function givenGeneral(
  { torque, unit }: Pick<GivenTorque, 'torque' | 'unit'>,
  thread: string | null,
  nut: NutKind | null,
): { thread: string; nut: NutKind } {
  const written = givenText(thread, 'thread', { least: 1, most: 20 });
  const row = nut && generalTorque(written, nut);
  if (!row)
    throw new Refused(
      'BAD_INPUT',
      `AC 43.13-1B, table 7-1, has no ${nut ?? 'kind of'} nut on a thread “${written}”: needed is one that it names, or the maker’s torque.`,
      'thread',
    );
  const inchPounds = convertTorque(Number(torque), unit, 'in_lb');
  // A figure converted to hundredths of another unit may miss the edge by so little.
  const slack = 0.2;
  if (inchPounds < row.from - slack || inchPounds > row.most + slack)
    throw new Refused(
      'AGAINST_RULE',
      `${torque} ${unitWords[unit]} was given for a ${row.nut} nut on ${row.thread}: AC 43.13-1B, table 7-1, has ${row.from} to ${row.to} in-lb, never beyond ${row.most}, friction drag not included.`,
      'torque',
    );
  return { thread: row.thread, nut: row.nut };
}
