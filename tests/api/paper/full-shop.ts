import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import sharp from 'sharp';
import type { TestApi } from '../../support/api.ts';
import { makeShop, makeTask, type TestShop } from '../../support/shop.ts';
import { uploaded } from '../../support/upload.ts';
import { entryDraft, makeVisit, signEntry } from '../../support/visit.ts';
import { bill, draft, makeSold, release } from '../books/billing.ts';
import {
  draft as draftQuote,
  forOwner,
  makePart,
  makeTasks,
  quoted,
  tasksOf,
} from '../quoting/quoting-shop.ts';

/** A picture that compresses about as badly as one from a hangar does; the same one each time. */
const noisy = sharp({
  create: {
    width: 1600,
    height: 1200,
    channels: 3,
    background: '#808080',
    noise: { type: 'gaussian', mean: 128, sigma: 18 },
  },
})
  .jpeg({ quality: 85 })
  .toBuffer();

export async function upload(
  api: TestApi,
  shop: TestShop,
  bytes: Buffer,
  alt: string,
): Promise<string> {
  const id = await uploaded(api, await shop.cookie('mechanic'), bytes, alt);
  return Buffer.from(id, 'base64url').toString().split(':')[1] ?? '';
}

/** Findings of an order, each with so many photos. */
export async function photograph(
  api: TestApi,
  shop: TestShop,
  orderId: string,
  { findings, each, picture }: { findings: number; each: number; picture?: Buffer },
): Promise<void> {
  for (let number = 1; number <= findings; number += 1) {
    const photos: string[] = [];
    for (let index = 1; index <= each; index += 1)
      photos.push(
        await upload(
          api,
          shop,
          picture ?? (await noisy),
          `Collector seen from below, crack ${number}.${index} beside the weld`,
        ),
      );
    await shop.inside(async (tx) => {
      const { id: findingId } = await tx.finding.create({
        data: {
          orderId,
          number: 100 + number,
          title: `Crack ${number} in the exhaust collector`,
          words: 'About 14 mm long, from the weld outwards. The streak beside it is grey and dry.',
          provisionalClass: 'unairworthy',
          foundAt: new Date('2026-03-14T10:00:00Z'),
          foundById: shop.people.mechanic.id,
          clientEventId: randomUUID(),
        },
      });
      await tx.findingEvent.create({
        data: {
          findingId,
          kind: 'assessed',
          class: 'unairworthy',
          meaning:
            'Exhaust gas can reach the cabin. It has to be corrected before the next flight.',
          byId: shop.people.inspector.id,
        },
      });
      await tx.findingPhoto.createMany({
        data: photos.map((photoId, index) => ({ findingId, photoId, position: index + 1 })),
      });
    });
  }
}

/** An issued invoice with work, a part held to the cent, findings and photos. */
export async function issuedInvoice(
  api: TestApi,
  {
    lines = 3,
    findings = 1,
    each = 2,
    picture,
    title = 'Starter and its relay replaced, position',
    before,
  }: {
    lines?: number;
    findings?: number;
    each?: number;
    picture?: Buffer;
    title?: string;
    /** What the shop does before anything is sold. */
    before?: (shop: TestShop) => Promise<unknown>;
  } = {},
) {
  const shop = await makeShop(api);
  await before?.(shop);
  const sold = Array.from({ length: lines }, (_, index) => ({
    title: `${title} ${index + 1}`,
    likelyMinor: 19_000n,
  }));
  const visit = await makeSold(shop, {
    lines: sold,
    ceiling: 3_000_000n,
    items: sold.map((_, line) => ({ line, seconds: 1200 + (line % 7) * 313 })),
  });
  await photograph(api, shop, visit.orderId, { findings, each, ...(picture && { picture }) });
  const made = await draft(shop, visit);
  await release(shop, visit);
  const invoice = await bill(shop, 'issueInvoice', { invoiceId: made.id });
  return { shop, visit, invoice };
}

/** A drafted offer: estimated work and a firm part. */
export async function draftedQuote(api: TestApi) {
  const shop = await makeShop(api);
  const part = await makePart(shop, { title: 'Exhaust gasket', unitPrice: '12.345' });
  const tasks = [
    ...(await makeTasks(shop, 1, {
      title: 'Replace the exhaust collector',
      cautions: ['Hot parts: let them cool.'],
    })),
    ...(await makeTasks(shop, 1, {
      title: 'Grease the swash plate',
      jasc: '6230',
      standardHours: '0.8',
    })),
  ];
  const quote = quoted(
    await draftQuote(shop, {
      ...forOwner(shop),
      title: 'Exhaust leak, with what goes with it',
      tasks: tasksOf(tasks),
      parts: [{ partId: globalId('Part', part.id), quantity: '3' }],
      terms:
        'Payable within 14 days of the invoice. Parts that were removed are kept for you until then.',
    }),
  );
  return { shop, quote };
}

/** An order with a critical item that names its hazards and its place. */
export async function plannedItem(api: TestApi) {
  const shop = await makeShop(api);
  const task = await makeTask(shop, { title: 'Remove and refit the tail rotor gearbox' });
  const visit = await makeVisit(shop, {
    items: [{ workDone: null }, { workDone: null, title: 'Second item' }],
  });
  await shop.inside(async (tx) => {
    const access = await tx.access.create({
      data: {
        shopId: shop.shopId,
        clearanceMm: 60,
        sight: 'mirror',
        posture: 'bent',
        reach: 'arm',
        lockedFasteners: 4,
      },
    });
    await tx.workItem.create({
      data: {
        orderId: visit.orderId,
        position: 3,
        taskId: task.id,
        title: task.title,
        jasc: '6520',
        critical: true,
        cautions: [
          'Ignition off, key out, battery disconnected before a hand goes near the rotor.',
          'Rotor arc: keep it clear of people, ladders and tools.',
        ],
        reference: 'Maintenance manual, chapter 65-20, revision in force',
        plannedAccessId: access.id,
        checklist: ['Couplings: cracks, bolts, slippage marks', 'Damper set by the manual'],
      },
    });
  });
  const item = await shop.inside((tx) =>
    tx.workItem.findFirstOrThrow({ where: { orderId: visit.orderId, position: 3 } }),
  );
  return { shop, order: visit.order, item: globalId('WorkItem', item.id), title: item.title };
}

/** A signed entry: of an inspection that ended with a list where `listed`. */
export async function signedEntry(api: TestApi, { listed = false } = {}) {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, {
    items: [
      {
        title: 'Exhaust collector',
        jasc: '7810',
        workDone:
          'Collector replaced with a new one, gaskets renewed, run up and checked for leaks.',
      },
      { title: 'Main rotor blades', jasc: '6210', workDone: 'Inspected, no defect found.' },
    ],
    findings: listed
      ? [
          {
            title: 'Play in the tail rotor pitch link',
            class: 'discrepancy',
            words: 'At the limit of the manual, not past it.',
          },
          {
            title: 'Crack in the upper frame',
            class: 'unairworthy',
            words: 'About 14 mm long, at the cluster behind the seat.',
          },
        ]
      : [],
  });
  const asked = {
    orderId: visit.order,
    bookId: globalId('RecordBook', shop.bookId),
    outcome: listed ? 'not_airworthy_list_given' : 'airworthy',
  };
  const { text } = await entryDraft(shop, asked);
  const { id, message } = await signEntry(shop, asked, { text: text ?? '' });
  if (!id) throw new Error(message);
  return { shop, id, text: text ?? '' };
}

/** A purchase order of so many lines, drafted by the front desk. */
export async function purchaseDrafted(api: TestApi, { lines = 3 } = {}) {
  const shop = await makeShop(api);
  const parts = await shop.inside((tx) =>
    Promise.all(
      Array.from({ length: lines }, (_, index) =>
        tx.part.create({
          data: {
            shopId: shop.shopId,
            number: `KH-${index + 1}-0410`,
            title: index === 0 ? 'Fuel hose, fire-sleeved, 410 mm' : 'Cushion clamp',
            unitPrice: '12',
          },
        }),
      ),
    ),
  );
  const { data } = await shop.as<{ draftPurchase: { id: string; number: number } }>(
    'front_desk',
    'mutation($input: DraftPurchaseInput!) { draftPurchase(input: $input) { ... on PurchaseOrder { id number } ... on Refusal { message } } }',
    {
      input: {
        supplier: 'Invented Hose Works',
        supplierEmail: 'orders@hose.example',
        expectedOn: '2099-03-14',
        note: 'Leave it with the harbour office after five.',
        lines: parts.map(({ id }, index) => ({
          partId: globalId('Part', id),
          quantity: `${index + 1}.5`,
          unitCost: '101.125',
        })),
      },
    },
  );
  if (!data) throw new Error('No purchase order was drafted.');
  return { shop, ...data.draftPurchase };
}
