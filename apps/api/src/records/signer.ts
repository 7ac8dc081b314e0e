import {
  type Certificate,
  certificateNames,
  evidenceLack,
  isGoodOn,
  kindsOfWork,
  type MayApprove,
  releaseLack,
  type ShopStanding,
  type Work,
  whoMayApprove,
} from '@fairlead/airworthiness';
import type { CertificateKind, InspectionKind, Tx } from '@fairlead/database';
import { notFound } from '../errors.ts';
import { bookKindOf } from './book-of.ts';
import { type EvidenceOnDay, evidenceOn } from './signing-evidence.ts';

/** Who signs, in what capacity; or why they may not. */
export interface Signer {
  id: string;
  name: string;
  may: boolean;
  /** The capacity in words, or the refusal with its paragraph. */
  because: string;
  paragraphs: string;
  certificateKind: CertificateKind | null;
  /** As it is written beside the signature. */
  certificateName: string;
  certificateNumber: string;
}

const iso = (day: Date) => day.toISOString().slice(0, 10);

/**
 * Kinds of work that one signature approves: the inspection, and the maintenance beside it. An item of an engine or
 * propeller chapter (JASC 61, 71 to 85) is powerplant work, whichever book it stands in; rotors are airframe (65.85).
 */
export function worksOf(inspection: InspectionKind | null, jascs: readonly string[]): Work[] {
  const powerplant = jascs.some((jasc) => ['engine', 'propeller'].includes(bookKindOf(jasc)));
  const airframe =
    jascs.length === 0 || jascs.some((jasc) => ['airframe', 'rotor'].includes(bookKindOf(jasc)));
  if (inspection === 'annual') return [{ kind: 'annual_inspection' }];
  const [onAirframe, onPowerplant]: [Work, Work] =
    inspection === 'hundred_hour'
      ? [{ kind: 'hundred_hour_airframe' }, { kind: 'hundred_hour_powerplant' }]
      : [{ kind: 'minor_work_airframe' }, { kind: 'minor_work_powerplant' }];
  return [...(airframe ? [onAirframe] : []), ...(powerplant ? [onPowerplant] : [])];
}

/** The person who would sign, with what they hold on the day, against the work. */
export async function signerFor(
  tx: Tx,
  personId: string,
  works: readonly Work[],
  on: Date,
): Promise<Signer> {
  const person = await tx.person.findUnique({
    where: { id: personId },
    include: { certificates: { orderBy: { kind: 'asc' } } },
  });
  if (!person) throw notFound('person');
  const shop = await tx.shop.findFirstOrThrow({
    select: { standing: true, certificateNumber: true },
  });
  const roster =
    shop.standing === 'repair_station'
      ? await tx.certificate.findMany({
          where: {
            kind: 'repair_station_inspector',
            validFrom: { lte: on },
            OR: [{ validUntil: null }, { validUntil: { gte: on } }],
          },
          select: { personId: true },
        })
      : [];
  const evidence = await evidenceOn(tx, personId, on);
  const stands: ShopStanding =
    shop.standing === 'mechanics'
      ? { kind: 'mechanics' }
      : {
          kind: 'repair_station',
          certificateNumber: shop.certificateNumber ?? '',
          ratings: evidence.ratings,
          inspectors: roster.map((inspector) => inspector.personId),
        };
  const held = person.certificates.flatMap(
    ({ kind, number, validFrom, validUntil }): Certificate[] =>
      kind === 'repair_station_inspector'
        ? []
        : [
            {
              kind,
              number,
              validFrom: iso(validFrom),
              ...(validUntil && { validUntil: iso(validUntil) }),
            },
          ],
  );
  const answers = works.map((work) => {
    const signing = { id: person.id, name: person.name, certificates: held };
    const answer = whoMayApprove(work, signing, stands, iso(on));
    return answer.allowed ? shown(answer, work, person.name, evidence, iso(on)) : answer;
  });
  const refused = answers.find(({ allowed }) => !allowed);
  const allowed = answers.flatMap((answer) => (answer.allowed ? [answer] : []));
  const certificate = certificateFor(
    works,
    held.filter((one) => isGoodOn(one, iso(on))),
  );
  const asStation = allowed.some(({ as }) => as.includes('repair station'));
  return {
    id: person.id,
    name: person.name,
    may: refused === undefined,
    because:
      refused && !refused.allowed
        ? refused.because
        : [...new Set(allowed.map(({ as }) => as))].join('; '),
    paragraphs: [...new Set(allowed.map(({ paragraphs }) => paragraphs))].join('; '),
    certificateKind: asStation ? 'repair_station_inspector' : (certificate?.kind ?? null),
    certificateName: asStation
      ? 'inspector of the repair station'
      : certificate
        ? certificateNames[certificate.kind]
        : '',
    certificateNumber: asStation ? (shop.certificateNumber ?? '') : (certificate?.number ?? ''),
  };
}

/** Certificate and rating are there: what they rest on has to be too. */
function shown(
  answer: MayApprove,
  work: Work,
  name: string,
  { person, releaseFor }: EvidenceOnDay,
  on: string,
): MayApprove {
  const station = answer.allowed && answer.as.includes('repair station');
  const lack = station ? releaseLack(work.kind, releaseFor) : evidenceLack(work.kind, person, on);
  return lack === undefined
    ? answer
    : {
        allowed: false,
        because: `${name} cannot approve this ${kindsOfWork[work.kind].title} on ${on}: ${lack.lack} (${lack.paragraph}). It is entered with its paper on the sheet of the shop, under their name`,
      };
}

type Held = Certificate & { kind: Exclude<CertificateKind, 'repair_station_inspector'> };

/** The certificate that goes beside the signature: the one that the first kind of work rests on. */
function certificateFor(works: readonly Work[], good: readonly Certificate[]): Held | undefined {
  const wanted = {
    annual_inspection: 'inspection_authorization',
    hundred_hour_powerplant: 'mechanic_powerplant',
    minor_work_powerplant: 'mechanic_powerplant',
  } as const;
  const [first] = works;
  const kind =
    first && first.kind in wanted ? wanted[first.kind as keyof typeof wanted] : 'mechanic_airframe';
  return good.find((certificate): certificate is Held => certificate.kind === kind);
}
