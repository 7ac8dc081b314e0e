import { type Certificate, kindsOfWork, type Work, whoMayApprove } from '@fairlead/airworthiness';
import type { CertificateKind } from '@fairlead/database';

interface Held {
  id: string;
  kind: CertificateKind;
  number: string;
  validFrom: Date;
  validUntil: Date | null;
}

const works = [
  'minor_work_airframe',
  'minor_work_powerplant',
  'hundred_hour_airframe',
  'hundred_hour_powerplant',
  'annual_inspection',
] as const;

const iso = (day: Date) => day.toISOString().slice(0, 10);

/**
 * What somebody may approve today on their own certificates, and could no longer without one of them: the same rules
 * that a signature is checked by (14 CFR 65 and 43.7). Empty where nothing rests on it, or it is not good today.
 *
 * @returns titles such as "annual inspection"
 */
export function restsOn(
  certificateId: string,
  person: { id: string; name: string; certificates: readonly Held[] },
  today: Date,
): string[] {
  const may = (held: readonly Held[], work: Work) =>
    whoMayApprove(
      work,
      { id: person.id, name: person.name, certificates: held.flatMap(certificate) },
      { kind: 'mechanics' },
      iso(today),
    ).allowed;
  const without = person.certificates.filter(({ id }) => id !== certificateId);
  return works
    .filter((kind) => may(person.certificates, { kind }) && !may(without, { kind }))
    .map((kind) => kindsOfWork[kind].title);
}

const certificate = ({ kind, number, validFrom, validUntil }: Held): Certificate[] =>
  kind === 'repair_station_inspector'
    ? []
    : [
        {
          kind,
          number,
          validFrom: iso(validFrom),
          ...(validUntil && { validUntil: iso(validUntil) }),
        },
      ];
