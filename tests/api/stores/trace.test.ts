import { createHash } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { move, stocked } from './stocked.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

// The smallest PDF that names its version and its end (ISO 32000-1, 7.5.2 and 7.5.5), and a JPEG from SOI to EOI (T.81, B.1.1.3).
const pdf = Buffer.from('%PDF-1.7\n1 0 obj\n<<>>\nendobj\ntrailer\n<<>>\nstartxref\n0\n%%EOF\n');
const jpeg = Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 4, 0, 0, 0xff, 0xd9]);

async function send(
  shop: TestShop,
  lot: string,
  bytes: Buffer,
  {
    name = 'tag.pdf',
    role = 'mechanic',
    header = true,
  }: { name?: string; role?: Role | null; header?: boolean } = {},
) {
  const response = await fetch(
    `${api.origin}/certificates/${lot}?name=${encodeURIComponent(name)}`,
    {
      method: 'POST',
      headers: {
        ...(role && { cookie: await shop.cookie(role) }),
        ...(header && { 'x-fairlead': '1' }),
        'content-type': 'application/octet-stream',
      },
      body: new Uint8Array(bytes),
    },
  );
  const body = (await response.json()) as {
    id?: string;
    error?: { code: string; message: string };
  };
  return { status: response.status, ...body };
}

it('a lot without number or document of a certificate is issued only by a named person’s reason, which is kept', async () => {
  const { shop, lot, itemId } = await stocked(api, { tag: '' });
  const issue = (over: Record<string, unknown> = {}) =>
    move(shop, 'issuePart', { lotId: lot.id, itemId, quantity: '1', ...over });
  expect(await issue()).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringMatching(
      /^Gasket, batch B-7 came without a release certificate: .* or give your reason for issuing it all the same; it is kept under your name\.$/,
    ),
    field: 'lotId',
  });
  expect(await issue({ despite: ['no_trace'], reason: '  ' })).toMatchObject({
    code: 'BAD_INPUT',
    field: 'reason',
  });
  const reason = 'Owner-produced part, drawing kept with the order';
  expect((await issue({ despite: ['no_trace'], reason })).onHand).toBe('9');
  const { data } = await shop.as(
    'inspector',
    'query($id: ID!) { node(id: $id) { ... on WorkItem { parts { quantity answeredFor } } } }',
    { id: itemId },
  );
  expect(data).toEqual({
    node: {
      parts: [
        {
          quantity: '1',
          answeredFor: `Issued without a release certificate by Test mechanic: “${reason}”.`,
        },
      ],
    },
  });
});

it('with its document kept, a lot without a number has trace; what does not apply is not kept against an issue', async () => {
  const { shop, lot, itemId } = await stocked(api, { tag: '' });
  expect((await send(shop, lot.id, jpeg, { name: 'tag.jpg' })).status).toBe(201);
  const { data } = await shop.as<{ node: { hasTrace: boolean } }>(
    'mechanic',
    'query($id: ID!) { node(id: $id) { ... on Lot { hasTrace } } }',
    { id: lot.id },
  );
  expect(data?.node.hasTrace).toBe(true);
  const input = {
    lotId: lot.id,
    itemId,
    quantity: '1',
    despite: ['no_trace'],
    reason: 'Said twice',
  };
  expect((await move(shop, 'issuePart', input)).onHand).toBe('9');
  const { despite } = await shop.inside((tx) =>
    tx.stockMovement.findFirstOrThrow({ where: { kind: 'issue' } }),
  );
  expect(despite).toEqual([]);
});

it('past its last day a lot goes only by reason, and everything that it is against must be known', async () => {
  const { shop, lot, itemId } = await stocked(api, { tag: '', shelfLifeUntil: '2026-01-31' });
  const issue = (despite: string[]) =>
    move(shop, 'issuePart', {
      lotId: lot.id,
      itemId,
      quantity: '1',
      despite,
      reason: 'Maker extended it by letter',
    });
  expect(await issue(['no_trace'])).toMatchObject({
    code: 'AGAINST_RULE',
    message: expect.stringContaining('was good until 2026-01-31'),
  });
  expect(await issue(['past_shelf_life'])).toMatchObject({ code: 'AGAINST_RULE' });
  expect((await issue(['past_shelf_life', 'no_trace'])).onHand).toBe('9');
});

it('the database keeps no exception without a reason and a name', async () => {
  const { shop, visit } = await stocked(api);
  const lot = await shop.inside((tx) => tx.lot.findFirstOrThrow());
  const issue = {
    lotId: lot.id,
    itemId: visit.itemIds[0] ?? '',
    kind: 'issue',
    quantity: '-1',
  } as const;
  const despite = ['no_trace' as const];
  for (const over of [
    { despite, reason: '', byId: shop.people.mechanic.id },
    { despite, reason: 'Nobody said it', byId: null },
  ])
    await expect(
      shop.inside((tx) => tx.stockMovement.create({ data: { ...issue, ...over } })),
    ).rejects.toThrow(/despite_is_answered_for/);
});

it('a certificate is kept byte by byte, once, and given to the shop’s people alone', async () => {
  const { shop, lot } = await stocked(api);
  const first = await send(shop, lot.id, pdf, { name: 'EB-9901 scan.pdf' });
  expect(first.status).toBe(201);
  expect((await send(shop, lot.id, pdf)).id).toBe(first.id);
  const { data } = await shop.as<{ node: { documents: Record<string, unknown>[] } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Lot { documents { id url name mime bytes sha256 by { name } } } } }',
    { id: lot.id },
  );
  const url = `/certificates/${first.id}`;
  expect(data?.node.documents).toEqual([
    {
      id: first.id,
      url,
      name: 'EB-9901 scan.pdf',
      mime: 'application/pdf',
      bytes: pdf.length,
      sha256: createHash('sha256').update(pdf).digest('hex'),
      by: { name: 'Test mechanic' },
    },
  ]);
  const fetched = await fetch(`${api.origin}${url}`, {
    headers: { cookie: await shop.cookie('inspector') },
  });
  expect(fetched.headers.get('content-type')).toBe('application/pdf');
  expect(fetched.headers.get('x-content-type-options')).toBe('nosniff');
  expect(Buffer.from(await fetched.arrayBuffer()).equals(pdf)).toBe(true);
  expect((await fetch(`${api.origin}${url}`)).status).toBe(401);
  const stranger = await stocked(api);
  const foreign = await fetch(`${api.origin}${url}`, {
    headers: { cookie: await stranger.shop.cookie('manager') },
  });
  expect(foreign.status).toBe(404);
  expect((await send(stranger.shop, lot.id, pdf)).status).toBe(404);
});

it('what is no PDF and no JPEG by its bytes, is cut short or too large, is refused in a sentence', async () => {
  const { shop, lot } = await stocked(api);
  const said = async (bytes: Buffer) => {
    const { status, error } = await send(shop, lot.id, bytes);
    return `${status} ${error?.message}`;
  };
  expect(await said(Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'))).toMatch(
    /^400 The document is neither a PDF nor a JPEG by its first bytes/,
  );
  expect(await said(Buffer.alloc(0))).toMatch(/^400 The document is empty/);
  expect(await said(pdf.subarray(0, 30))).toMatch(/^400 The PDF has no end: it was cut short/);
  expect(await said(jpeg.subarray(0, 8))).toMatch(/^400 The photo has no end/);
  expect(await said(Buffer.concat([pdf, Buffer.alloc(10 * 1024 * 1024)]))).toMatch(
    /^413 The document is larger than 10 MB/,
  );
  expect((await send(shop, lot.id, pdf, { header: false })).error?.code).toBe('FORBIDDEN');
  expect((await send(shop, lot.id, pdf, { role: null })).error?.code).toBe('SIGN_IN_NEEDED');
  expect((await send(shop, lot.id, pdf, { name: ' ' })).error?.code).toBe('BAD_INPUT');
  expect((await send(shop, globalId('Part', crypto.randomUUID()), pdf)).error?.code).toBe(
    'BAD_INPUT',
  );
  expect(await shop.inside((tx) => tx.lotDocument.count())).toBe(0);
});
