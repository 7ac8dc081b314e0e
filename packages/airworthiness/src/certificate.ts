import { type CivilDate, civilDate } from './civil-date.ts';

/** Certificates and ratings of 14 CFR parts 61 and 65, one entry for each rating held. */
export const certificateNames = {
  mechanic_airframe: 'mechanic certificate with airframe rating',
  mechanic_powerplant: 'mechanic certificate with powerplant rating',
  inspection_authorization: 'inspection authorization',
  repairman: 'repairman certificate',
  sport_pilot: 'sport pilot certificate',
  private_pilot: 'private pilot certificate',
  commercial_pilot: 'commercial pilot certificate',
  airline_transport_pilot: 'airline transport pilot certificate',
} as const;

export type CertificateKind = keyof typeof certificateNames;

export interface Certificate {
  readonly kind: CertificateKind;
  readonly number: string;
  readonly validFrom: CivilDate;
  /** The last day it is good for. A mechanic's certificate has none unless it was given up or withdrawn. */
  readonly validUntil?: CivilDate;
}

/**
 * The last day a certificate is good for, or undefined when it does not lapse.
 *
 * An inspection authorization ends on 31 March of each odd-numbered year (14 CFR 65.92(a), read in its text):
 * where its card's date is not entered, the first such day on or after it began.
 *
 * @example lastDayOf({ kind: 'inspection_authorization', number: '7', validFrom: '2025-04-01' }) // → '2027-03-31'
 * @example lastDayOf({ kind: 'mechanic_airframe', number: '7', validFrom: '1999-04-01' }) // → undefined
 */
export function lastDayOf(certificate: Certificate): CivilDate | undefined {
  if (certificate.validUntil !== undefined) {
    return civilDate(certificate.validUntil, 'last day of a certificate').toString();
  }
  if (certificate.kind !== 'inspection_authorization') {
    return undefined;
  }
  const { year, month } = civilDate(certificate.validFrom, 'first day of a certificate');
  const wholeYear = month > 3 ? year + 1 : year;
  return `${String(wholeYear % 2 === 0 ? wholeYear + 1 : wholeYear).padStart(4, '0')}-03-31`;
}

/**
 * Whether a certificate is good on a day, its first and last day included.
 *
 * @example isGoodOn({ kind: 'inspection_authorization', number: '7', validFrom: '2025-04-01' }, '2027-04-01') // → false
 */
export function isGoodOn(certificate: Certificate, on: CivilDate): boolean {
  const day = civilDate(on).toString();
  const first = civilDate(certificate.validFrom, 'first day of a certificate').toString();
  const last = lastDayOf(certificate);
  // ISO dates of one length sort as the days they name.
  return first <= day && (last === undefined || day <= last);
}
