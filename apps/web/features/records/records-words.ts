import type {
  CertificateKind,
  InvoiceState,
  RecordBookKind,
  ReleaseOutcome,
} from '../../graphql/generated/graphql.ts';
import { moneyText } from '../../lib/figures/money.ts';

export const outcomeWords: Record<ReleaseOutcome, string> = {
  airworthy: 'airworthy',
  not_airworthy_list_given: 'not airworthy, list given',
};

export const bookWords: Record<RecordBookKind, string> = {
  airframe: 'Airframe record',
  engine: 'Engine record',
  propeller: 'Propeller record',
  rotor: 'Rotor record',
};

/** The book as its cover says, where that says more than its kind. */
export function nameOfBook({ kind, title }: { kind: RecordBookKind; title: string }): string {
  const words = bookWords[kind];
  return title.toLowerCase() === kind ? words : `${words}, ${title}`;
}

export const certificateWords: Record<CertificateKind, string> = {
  mechanic_airframe: 'Mechanic, airframe rating',
  mechanic_powerplant: 'Mechanic, powerplant rating',
  inspection_authorization: 'Inspection authorization',
  repairman: 'Repairman',
  repair_station_inspector: 'Inspector of the repair station',
  private_pilot: 'Private pilot',
};

/**
 * Hundredths of an hour as they stand in a record, both decimals kept.
 *
 * @example recordHours(246300) // → '2,463.00'
 */
export function recordHours(hundredths: number): string {
  const whole = Math.floor(hundredths / 100)
    .toString()
    .replace(/\B(?=(\d{3})+$)/g, ',');
  return `${whole}.${String(hundredths % 100).padStart(2, '0')}`;
}

/**
 * What is said of the money when an aircraft goes back; null where all is paid. It warns, and keeps nothing here.
 *
 * @param order what is unpaid in minor units, and its invoices and credit notes
 * @example unpaidWords({ unpaid: '51656', invoices: [{ state: 'issued' }] }, 'USD') // → 'Not paid yet: 516.56 USD.'
 */
export function unpaidWords(
  {
    unpaid,
    invoices,
  }: {
    unpaid: string;
    invoices: readonly { state: InvoiceState; credits?: object | null }[];
  },
  currency: string,
): string | null {
  const amount = BigInt(unpaid);
  const said = (money: bigint) => `${moneyText(money, currency)} ${currency}`;
  if (amount > 0n) return `Not paid yet: ${said(amount)}.`;
  if (amount < 0n) return `To be paid back to the owner: ${said(-amount)}.`;
  const stands = invoices.some(({ state, credits }) => credits == null && state === 'issued');
  return stands ? null : 'No invoice is issued for this order yet.';
}
