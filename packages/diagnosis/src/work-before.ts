/**
 * What was worked on, from a JASC code, as the question "What was worked on just before?" has its answers. Chapters
 * of the FAA's JASC table, 2008; 1220 is oil servicing, 8550 the engine's oil system. Opening and
 * closing the cowling (7110) disturbs nothing.
 *
 * @param jasc four digits
 * @throws RangeError for anything else
 * @example workBefore('8550') // → 'oil'
 * @example workBefore('7314') // → 'fuel'
 * @example workBefore('7110') // → 'other'
 * @example workBefore('2562') // → 'other'
 */
export function workBefore(jasc: string): string {
  if (!/^\d{4}$/.test(jasc))
    throw new RangeError(`The JASC code is "${jasc.slice(0, 20)}"; needed are four digits.`);
  if (['1220', '8550'].includes(jasc) || jasc.startsWith('79')) return 'oil';
  if (jasc === '1210' || jasc.startsWith('28') || jasc.startsWith('73')) return 'fuel';
  if (jasc === '1230' || jasc.startsWith('29') || /^32[45]/.test(jasc)) return 'hydraulic';
  if (jasc.startsWith('74')) return 'ignition';
  if (/^(18|6[1-7])/.test(jasc)) return 'rotor_drive';
  if (/^(71[2-9]|72|78|8[05])/.test(jasc)) return 'engine';
  return 'other';
}
