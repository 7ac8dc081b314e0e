import { globalId } from '@fairlead/api/ids';
import type { Prisma, Role } from '@fairlead/database';
import type { TestShop } from '../../support/shop.ts';
import { makeVisit, type Visit, type VisitItem } from '../../support/visit.ts';

export type Line = Partial<Prisma.QuoteLineUncheckedCreateInput> & {
  title: string;
  likelyMinor: bigint;
};

/** A quote that the owner said yes to, up to a ceiling. Answers with the ids of its lines. */
export function makeAccepted(
  shop: TestShop,
  {
    lines,
    ceiling,
    orderId = null,
    findingId = null,
    likely,
  }: {
    lines: Line[];
    ceiling: bigint;
    orderId?: string | null;
    findingId?: string | null;
    likely?: bigint;
  },
) {
  return shop.inside(async (tx) => {
    const quote = await tx.quote.create({
      data: {
        aircraftId: shop.aircraftId,
        contactId: shop.contactId,
        title: findingId ? 'Finding' : 'Visit',
        orderId,
        findingId,
      },
    });
    const whole = likely ?? lines.reduce((sum, line) => sum + line.likelyMinor, 0n);
    const revision = await tx.quoteRevision.create({
      data: {
        quoteId: quote.id,
        revision: 1,
        expiresOn: new Date('2099-01-01'),
        currency: 'USD',
        lowMinor: whole,
        likelyMinor: whole,
        p80Minor: whole,
        highMinor: whole,
        taxMinor: 0,
        hoursP10: 1,
        hoursP50: 1,
        hoursMean: 1,
        hoursP80: 1,
        hoursP90: 1,
      },
    });
    const ids: string[] = [];
    for (const [index, { likelyMinor, ...line }] of lines.entries()) {
      const made = await tx.quoteLine.create({
        data: {
          revisionId: revision.id,
          position: index + 1,
          pricing: 'time_and_materials',
          category: 'labour',
          taxCode: 'S',
          taxRate: '0',
          quantity: '1',
          unitPrice: '95',
          lowMinor: likelyMinor,
          likelyMinor,
          p80Minor: likelyMinor,
          highMinor: likelyMinor,
          ...line,
        },
      });
      ids.push(made.id);
    }
    await tx.quoteSending.create({ data: { revisionId: revision.id, channel: 'telephone' } });
    await tx.decision.create({
      data: {
        revisionId: revision.id,
        contactId: shop.contactId,
        choice: 'go_ahead',
        channel: 'telephone',
        wordsShown: 'Read out.',
        ceilingMinor: ceiling,
        currency: 'USD',
        decidedAt: new Date('2026-03-01T09:00:00Z'),
      },
    });
    return { quoteId: quote.id, lineIds: ids };
  });
}

/** A part with a lot that holds `onHand`, and so much of it issued to an item. */
export async function issueTo(
  shop: TestShop,
  itemId: string,
  {
    partId,
    unitPrice = '12.5',
    quantity = '2',
    coreCharge = null,
    unitCost = '5',
  }: {
    partId?: string;
    unitPrice?: string;
    quantity?: string;
    coreCharge?: bigint | null;
    unitCost?: string;
  },
) {
  return shop.inside(async (tx) => {
    const part =
      partId ??
      (
        await tx.part.create({
          data: {
            shopId: shop.shopId,
            number: `P-${itemId.slice(-6)}`,
            title: 'Gasket',
            unitPrice,
          },
        })
      ).id;
    const lot = await tx.lot.create({
      data: {
        partId: part,
        supplier: 'S',
        batch: 'B',
        receivedOn: new Date('2026-01-01'),
        unitCost,
        coreChargeMinor: coreCharge,
      },
    });
    await tx.stockMovement.create({ data: { lotId: lot.id, kind: 'receive', quantity: '100' } });
    await tx.stockMovement.create({
      data: { lotId: lot.id, itemId, kind: 'issue', quantity: `-${quantity}` },
    });
    return { partId: part, lotId: lot.id };
  });
}

export interface Billed {
  code?: string;
  message?: string;
  id: string;
  number: number | null;
  state: string;
  net: string;
  tax: string;
  gross: string;
  agreed: string;
  beyond: string;
  paid: string;
  owed: string;
  quoted: string | null;
  dueOn: string | null;
  chainHash: string | null;
  difference: { kind: string; title: string; amount: string }[];
  lines: { title: string; quantity: string; unit: string; unitPrice: string; net: string }[];
}

export const INVOICE = `id number state net tax gross agreed beyond paid owed quoted dueOn chainHash
  difference { kind title amount } lines { title quantity unit unitPrice net }`;

/** One of the mutations of the books. */
export async function bill(
  shop: TestShop,
  name: 'draftInvoice' | 'issueInvoice' | 'recordPayment' | 'creditInvoice',
  input: Record<string, unknown>,
  role: Role = 'front_desk',
): Promise<Billed> {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const answer = await shop.as<{ done: Billed }>(
    role,
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ... on Invoice { ${INVOICE} } ... on Refusal { code message } } }`,
    { input },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.done;
}
export const draft = (shop: TestShop, { order }: Visit, role?: Role) =>
  bill(shop, 'draftInvoice', { orderId: order }, role);

/** Released, as if its entries had been signed. */
export const release = (shop: TestShop, { orderId }: Visit) =>
  shop.inside((tx) =>
    tx.orderEvent.create({ data: { orderId, kind: 'released', outcome: 'airworthy' } }),
  );

export interface SoldVisit extends Visit {
  lineIds: string[];
}

/** A visit sold with these lines; item n is done under line n of those that sell work. */
export async function makeSold(
  shop: TestShop,
  {
    lines,
    ceiling,
    items,
    likely,
  }: {
    lines: Line[];
    ceiling: bigint;
    items: (VisitItem & { line: number | null })[];
    likely?: bigint;
  },
): Promise<SoldVisit> {
  const { quoteId, lineIds } = await makeAccepted(shop, {
    lines,
    ceiling,
    ...(likely !== undefined && { likely }),
  });
  const visit = await makeVisit(shop, {
    items: items.map(({ line, ...item }) => ({
      ...item,
      ...(line !== null && { quoteLineId: lineIds[line] ?? '' }),
    })),
  });
  await shop.inside((tx) =>
    tx.quote.update({ where: { id: quoteId }, data: { orderId: visit.orderId } }),
  );
  return { ...visit, lineIds };
}

export const idOf = globalId;
