import type { Prisma, TaxCategory, Tx } from '@fairlead/database';
import { sayDay } from '../given.ts';

/** Whose exemptions are asked for: somebody who pays, and an aircraft. */
export interface Taxed {
  contactId: string | null;
  aircraftId: string;
}

const facts = {
  id: true,
  contactId: true,
  category: true,
  validFrom: true,
  validUntil: true,
  reason: true,
  contact: { select: { name: true } },
  aircraft: { select: { registration: true } },
  ends: { select: { reason: true, at: true } },
} as const satisfies Prisma.TaxExemptionSelect;

export type Exemption = Prisma.TaxExemptionGetPayload<{ select: typeof facts }>;

const lastToEndFirst: Prisma.TaxExemptionOrderByWithRelationInput[] = [
  { validUntil: 'desc' },
  { id: 'desc' },
];

/** Every exemption that was ever given to either, the last to end first. */
export const exemptionsOf = (read: Tx, { contactId, aircraftId }: Taxed): Promise<Exemption[]> =>
  read.taxExemption.findMany({
    where: { OR: [{ aircraftId }, ...(contactId === null ? [] : [{ contactId }])] },
    orderBy: lastToEndFirst,
    select: facts,
  });

/** Those of an aircraft with those of each who pays for it, by who that is: what is somebody's own frees nobody else. */
export async function exemptionsOfEach(
  read: Tx,
  contactIds: readonly string[],
  aircraftId: string,
): Promise<ReadonlyMap<string, readonly Exemption[]>> {
  const all =
    contactIds.length === 0
      ? []
      : await read.taxExemption.findMany({
          where: { OR: [{ aircraftId }, { contactId: { in: [...contactIds] } }] },
          orderBy: lastToEndFirst,
          select: facts,
        });
  return new Map(
    contactIds.map((id) => [
      id,
      all.filter(({ contactId }) => contactId === null || contactId === id),
    ]),
  );
}

/** The one that holds for a category on a day. */
export const exemptionOn = (
  exemptions: readonly Exemption[],
  category: TaxCategory,
  day: Date,
): Exemption | undefined =>
  exemptions.find(
    (each) =>
      each.category === category &&
      each.ends.length === 0 &&
      each.validFrom <= day &&
      each.validUntil >= day,
  );

/** So long after its end somebody is told that an exemption ended. */
const TOLD_DAYS = 366;
const DAY = 86_400_000;

/** What the desk is to know before it bills with tax: exemptions that ended and that nothing has followed. */
export function endedWords(exemptions: readonly Exemption[], day: Date): string[] {
  const seen = new Set<TaxCategory>();
  return exemptions.flatMap((each) => {
    const { category, validUntil, contact, aircraft, ends } = each;
    const whose = contact?.name ?? aircraft?.registration ?? '';
    const stale = day.getTime() - validUntil.getTime() > TOLD_DAYS * DAY || each.validFrom > day;
    if (seen.has(category) || stale || exemptionOn(exemptions, category, day)) return [];
    seen.add(category);
    const [end] = ends;
    return [
      end
        ? `The exemption of ${whose} from tax on ${category} was ended on ${sayDay(end.at)}: ${end.reason}. Tax is charged.`
        : `The exemption of ${whose} from tax on ${category} ended on ${sayDay(validUntil)}. Tax is charged: ask for a new paper if it still holds.`,
    ];
  });
}
