import type { Prisma, Tx } from '@fairlead/database';
import type { WantedCharge } from './charges.ts';
import type { OfferInput } from './offer-input.ts';
import type { WantedTask } from './sold.ts';

const facts = {
  ...{ number: true, aircraftId: true, packageId: true, findingId: true },
  package: { select: { tasks: { select: { taskId: true } } } },
  revisions: {
    orderBy: { revision: 'desc' },
    take: 1,
    select: {
      ...{ revision: true, expiresOn: true },
      sendings: { take: 1, select: { id: true } },
      lines: {
        orderBy: { position: 'asc' },
        select: {
          ...{ taskId: true, partId: true, quantity: true, pricing: true, title: true },
          ...{ likelyMinor: true, limitMinor: true, charge: true, costMinor: true },
          ...{ percent: true, capMinor: true },
        },
      },
    },
  },
} satisfies Prisma.QuoteSelect;
type Line = Prisma.QuoteGetPayload<{ select: typeof facts }>['revisions'][number]['lines'][number];

/** What the newest revision of a quote was made from, so that something can be added to it. */
export interface WantedAgain extends Pick<OfferInput, 'tasks' | 'parts' | 'charges'> {
  number: number;
  aircraftId: string;
  packageId: string | null;
  findingId: string | null;
  revision: number;
  expiresOn: Date;
  sent: boolean;
}

/** @returns null where there is no such quote */
export async function wantedAgain(read: Tx, quoteId: string): Promise<WantedAgain | null> {
  const quote = await read.quote.findUnique({ where: { id: quoteId }, select: facts });
  const newest = quote?.revisions[0];
  if (!quote || !newest) return null;
  const packed = new Set(quote.package?.tasks.map(({ taskId }) => taskId) ?? []);
  const { number, aircraftId, packageId, findingId } = quote;
  return {
    ...{ number, aircraftId, packageId, findingId },
    ...{ revision: newest.revision, expiresOn: newest.expiresOn, sent: newest.sendings.length > 0 },
    tasks: newest.lines.flatMap((line) => taskOf(line, packed)),
    parts: newest.lines.flatMap(({ partId, quantity }) =>
      partId === null ? [] : [{ partId, quantity: quantity.toString() }],
    ),
    charges: newest.lines.flatMap(chargeOf),
  };
}

function taskOf(
  { taskId, pricing, limitMinor, likelyMinor }: Line,
  packed: ReadonlySet<string>,
): WantedTask[] {
  if (taskId === null || packed.has(taskId)) return [];
  const price = pricing === 'time_and_materials' ? null : (limitMinor ?? likelyMinor);
  return [{ taskId, pricing, price }];
}

/** A core follows its part; what follows from a cost or from the labour follows from it again. */
function chargeOf({
  charge,
  title,
  likelyMinor,
  costMinor,
  percent,
  capMinor,
}: Line): WantedCharge[] {
  if (charge === null || charge === 'core') return [];
  const reckoned = costMinor !== null || (charge === 'supplies' && percent !== null);
  return [
    {
      ...{ kind: charge, title, cost: costMinor },
      price: reckoned ? null : likelyMinor,
      percent: reckoned ? (percent?.toString() ?? null) : null,
      atMost: charge === 'supplies' ? capMinor : null,
    },
  ];
}
