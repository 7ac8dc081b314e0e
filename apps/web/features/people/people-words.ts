import { dayAndTimeText } from '../../lib/figures/dates.ts';
import type { CertificateOnSheet, PersonOnSheet, ShopSheet } from './shop-documents.ts';

type Role = PersonOnSheet['person']['roles'][number];
type CertificateKind = CertificateOnSheet['certificate']['kind'];

export const roleWords: Record<Role, string> = {
  front_desk: 'Front desk',
  mechanic: 'Mechanic',
  inspector: 'Inspector',
  manager: 'Manager',
};
export const roles: readonly Role[] = ['front_desk', 'mechanic', 'inspector', 'manager'];

/** What somebody may do by each role, said beside the choice. */
export const roleNotes: Record<Role, string> = {
  front_desk: 'quotes, sends, records answers, invoices',
  mechanic: 'works, clocks, notes findings',
  inspector: 'assesses findings, initials items, signs entries',
  manager: 'sees the whole shop and sets its rules',
};

export const certificateWords: Record<CertificateKind, string> = {
  mechanic_airframe: 'Mechanic, airframe',
  mechanic_powerplant: 'Mechanic, powerplant',
  inspection_authorization: 'Inspection authorization',
  repairman: 'Repairman',
  repair_station_inspector: 'Repair station inspector',
  private_pilot: 'Private pilot or higher',
};

/** Apprentice stands for mechanic: nobody is both to the reader. */
export function rolesText({ roles: held, apprentice }: PersonOnSheet['person']): string {
  return held
    .map((role) => (role === 'mechanic' && apprentice ? 'Apprentice' : roleWords[role]))
    .join(', ');
}

/** Who changed it and when, in one line. */
export function changeText(
  change: { at: string; by: string | null } | null,
  timeZone: string,
): string {
  if (change === null || change.by === null) return 'as the shop was set up';
  return `${change.by}, ${dayAndTimeText(change.at, timeZone)}`;
}

/** What somebody loses when they change roles, so that it is read before it is done. */
export function lostWith(before: readonly Role[], after: readonly Role[]): string[] {
  const lost: Record<Role, string> = {
    front_desk: 'quote, send and invoice',
    mechanic: 'clock on work',
    inspector: 'assess findings, initial items and sign entries',
    manager: 'change this sheet',
  };
  return before.filter((role) => !after.includes(role)).map((role) => lost[role]);
}

/** "a, b and c". */
export const listed = (words: readonly string[]): string =>
  words.length < 2
    ? (words[0] ?? '')
    : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;

export const standingWords: Record<ShopSheet['shop']['standing'], string> = {
  mechanics: 'Mechanics’ own certificates',
  repair_station: 'Repair station',
};
