import {
  kindsOfWork,
  type SigningEvidence,
  type StationRating,
  type WorkKind,
} from '@fairlead/airworthiness';
import type { Tx } from '@fairlead/database';
import { sayDay } from '../given.ts';
import { bookKindOf } from './book-of.ts';

/** What somebody's signature rests on besides their certificates, on a day. */
export interface EvidenceOnDay {
  person: SigningEvidence;
  /** Ratings for which the station's roster of those who sign a release names them. */
  releaseFor: StationRating[];
  /** Ratings of the station itself. */
  ratings: StationRating[];
}

const powerplant = (kind: string) => kind === 'engine' || kind === 'propeller';

/**
 * What is kept: stated with its paper, and what follows from the shop's own records of earlier days. A kind of work counts as
 * done before once the person signed for it, or did such work; an annual covers what a 100-hour does (91.409(b)).
 */
export async function evidenceOn(tx: Tx, personId: string, on: Date): Promise<EvidenceOnDay> {
  const stated = await tx.qualification.findMany({
    where: {
      OR: [{ personId }, { personId: null }],
      ...{ withdrawsId: null, withdrawnBy: null, validFrom: { lte: on } },
    },
    orderBy: { validFrom: 'asc' },
    select: { kind: true, subject: true, validFrom: true, validUntil: true, at: true },
  });
  const signed = await tx.recordEntry.findMany({
    where: { signedById: personId, signedAt: { lt: on } },
    select: { inspection: true, signedAt: true, book: { select: { kind: true } } },
  });
  const chapters = await tx.$queryRaw<{ jasc: string }[]>`
    SELECT DISTINCT i.jasc FROM item_event e JOIN work_item i ON i.shop_id = e.shop_id AND i.id = e.item_id
    WHERE e.by_id = ${personId}::uuid AND e.kind = 'done' AND e.at < ${on}`;
  const months = await tx.$queryRaw<{ month: string }[]>`
    SELECT DISTINCT to_char(x.at, 'YYYY-MM') AS month FROM (
      SELECT started_at AS at FROM stretch WHERE person_id = ${personId}::uuid
      UNION ALL SELECT at FROM item_event WHERE by_id = ${personId}::uuid
      UNION ALL SELECT signed_at FROM record_entry WHERE signed_by_id = ${personId}::uuid) x
    WHERE x.at >= ${on}::date - interval '25 months' AND x.at < ${on}::date + interval '1 day'`;
  const { authorizedSince } = await authorization(tx, personId, on);
  const of = (kind: (typeof stated)[number]['kind']) => stated.filter((one) => one.kind === kind);
  const goodNow = (kind: 'release_authorised' | 'station_rating') =>
    of(kind)
      .filter(({ validUntil }) => !validUntil || validUntil >= on)
      .map(({ subject }) => subject as StationRating);
  return {
    person: {
      done: [
        ...[...of('work_done'), ...of('work_shown')].map(({ subject }) => subject),
        ...signed.flatMap(({ inspection, book }) => kindsSigned(inspection, book.kind)),
        ...chapters.map(({ jasc }) =>
          powerplant(bookKindOf(jasc)) ? 'minor_work_powerplant' : 'minor_work_airframe',
        ),
      ].filter((kind): kind is WorkKind => kind in kindsOfWork),
      monthsServed: [
        ...months.map(({ month }) => month),
        // Stated without an end it is known up to the day on which it was stated.
        ...of('served').flatMap(({ validFrom, validUntil, at }) =>
          monthsOf(validFrom, validUntil ?? at),
        ),
      ],
      foundAble: of('found_able').map(({ validFrom }) => sayDay(validFrom)),
      inspectionActivity: [
        ...of('inspection_activity').map(({ validFrom, validUntil }) =>
          sayDay(validUntil ?? validFrom),
        ),
        ...annualsShown(signed),
      ],
      authorizedSince,
    },
    releaseFor: goodNow('release_authorised'),
    ratings: goodNow('station_rating'),
  };
}

async function authorization(tx: Tx, personId: string, on: Date) {
  const held = await tx.certificate.findFirst({
    where: { personId, kind: 'inspection_authorization', validFrom: { lte: on } },
    orderBy: { validFrom: 'asc' },
    select: { validFrom: true },
  });
  return { authorizedSince: held ? sayDay(held.validFrom) : undefined };
}

function kindsSigned(inspection: string | null, book: string): WorkKind[] {
  if (inspection === 'annual')
    return ['annual_inspection', 'hundred_hour_airframe', 'hundred_hour_powerplant'];
  if (inspection === 'hundred_hour')
    return [powerplant(book) ? 'hundred_hour_powerplant' : 'hundred_hour_airframe'];
  return [powerplant(book) ? 'minor_work_powerplant' : 'minor_work_airframe'];
}

/** 65.93(a)(1): one annual for each 90 days, so four in a year that ends on 31 March; shown as of the fourth. */
function annualsShown(
  signed: readonly { inspection: string | null; signedAt: Date; book: { kind: string } }[],
): string[] {
  const days = signed
    .filter(({ inspection, book }) => inspection === 'annual' && book.kind === 'airframe')
    .map(({ signedAt }) => sayDay(signedAt))
    .sort();
  const yearOf = (day: string) => Number(day.slice(0, 4)) - (day.slice(5) < '04-01' ? 1 : 0);
  return [...new Set(days.map(yearOf))].flatMap(
    (year) => days.filter((day) => yearOf(day) === year)[3] ?? [],
  );
}

/** "2026-01", "2026-02" … of the days from one to another. */
function monthsOf(from: Date, until: Date): string[] {
  const months: string[] = [];
  const at = new Date(Date.UTC(from.getUTCFullYear(), from.getUTCMonth(), 1));
  for (; at <= until && months.length < 1200; at.setUTCMonth(at.getUTCMonth() + 1))
    months.push(at.toISOString().slice(0, 7));
  return months;
}
