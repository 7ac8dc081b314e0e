/**
 * Codes of UN/ECE Recommendation 20 for the units that lines are written in (BT-130). From memory. A flat price and
 * what is held back count pieces of nothing in particular: C62, "one".
 */
const unitCodes: Readonly<Record<string, string>> = {
  hour: 'HUR',
  minute: 'MIN',
  day: 'DAY',
  each: 'EA',
  job: 'C62',
  'not billed': 'C62',
  set: 'SET',
  kit: 'KT',
  kg: 'KGM',
  g: 'GRM',
  lb: 'LBR',
  l: 'LTR',
  ml: 'MLT',
  quart: 'QTL',
  gallon: 'GLL',
  m: 'MTR',
  cm: 'CMT',
  ft: 'FOT',
  in: 'INH',
};

/**
 * The code of a unit; C62 for one that is not in the table, since a wrong code is worse than none.
 *
 * @example unitCode('hour') // → 'HUR'
 * @example unitCode('bushel of rivets') // → 'C62'
 */
export const unitCode = (unit: string): string =>
  Object.hasOwn(unitCodes, unit) ? (unitCodes[unit] ?? 'C62') : 'C62';
