import type {
  CertificateKind,
  RecordBookKind,
  ReleaseOutcome,
} from '../../graphql/generated/graphql.ts';

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
