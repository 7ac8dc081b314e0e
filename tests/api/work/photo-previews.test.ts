import { randomUUID } from 'node:crypto';
import { readdir } from 'node:fs/promises';
import path from 'node:path';
import { globalId, keyOf } from '@fairlead/api/ids';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { upload } from '../../support/upload.ts';
import { entryDraft, makeVisit, signEntry } from '../../support/visit.ts';
import { rawConnection, stateOf } from '../guarantees/raw.ts';
import { offeredFinding, pageAt } from '../owner/owner-shop.ts';
import { exported, verify } from '../records/archive-shop.ts';
import { expectDone, mutate } from './orders.ts';
import { carried, located } from './pictures.ts';

/** A small picture that goes before a photo, and is replaced by it. */

let api: TestApi;
let whole: Buffer;
let small: Buffer;
const shade = (width: number, height: number, background: string) =>
  sharp({ create: { width, height, channels: 3, background } });
beforeAll(async () => {
  api = await startApi();
  whole = await shade(2000, 1500, '#202020').jpeg().toBuffer();
  // Shades tell which of the two is shown.
  small = await located(shade(1600, 1200, '#e0e0e0'))
    .jpeg()
    .toBuffer();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

async function device(shop: TestShop, role: 'mechanic' | 'inspector' = 'mechanic') {
  const [cookie, id] = [await shop.cookie(role), randomUUID()];
  return {
    id,
    cookie,
    preview: (bytes = small, of: string = id) => upload(api, cookie, bytes, { previewOf: of }),
    photo: (bytes = whole) => upload(api, cookie, bytes, { id }),
  };
}
const rowsOf = (shop: TestShop) =>
  shop.inside((tx) => tx.photo.findMany({ select: { width: true, preview: true } }));
const bytesOf = async (cookie: string, address: string) => {
  const response = await fetch(`${api.origin}${address}`, { headers: { cookie } });
  return { response, bytes: Buffer.from(await response.arrayBuffer()) };
};
const isWhole = { width: 2000, preview: false };
const isSmall = { width: 1600, preview: true };

describe('a preview', () => {
  it('is a photo until the photo itself is here, which then takes its place under the same id', async () => {
    const shop = await makeShop(api);
    const { preview, photo, cookie } = await device(shop);
    const first = await preview();
    expect([first.status, first.error]).toEqual([204, null]);
    expect(await rowsOf(shop)).toEqual([isSmall]);
    const address = `/photos/${first.photo}`;
    const shown = await bytesOf(cookie, `${address}/original`);
    // Made like every photo: without the place where it was taken. A browser asks again for what is replaced.
    expect(carried(shown.bytes)).toEqual([]);
    expect(shown.response.headers.get('cache-control')).toBe('private, no-cache');
    expect((await bytesOf(cookie, `${address}/thumb`)).response.status).toBe(200);
    const second = await photo();
    expect([second.status, second.photo]).toEqual([204, first.photo]);
    expect(await rowsOf(shop)).toEqual([isWhole]);
    const now = await bytesOf(cookie, `${address}/original`);
    expect(now.response.headers.get('cache-control')).toMatch(/immutable/);
    expect((await sharp(now.bytes).metadata()).width).toBe(2000);
  });

  it('that comes after its photo is taken and changes nothing', async () => {
    const shop = await makeShop(api);
    const { preview, photo } = await device(shop);
    const first = await photo();
    const late = await preview();
    expect([late.status, late.error, late.photo]).toEqual([201, null, first.photo]);
    expect(await rowsOf(shop)).toEqual([isWhole]);
  });

  it('that was begun before its photo and ends after it changes nothing either', async () => {
    const shop = await makeShop(api);
    const { preview, photo } = await device(shop);
    const answers = await Promise.all([preview(), photo(), preview(), preview()]);
    expect(answers.map(({ error }) => error)).toEqual([null, null, null, null]);
    expect(new Set(answers.map((each) => each.photo)).size).toBe(1);
    expect(await rowsOf(shop)).toEqual([isWhole]);
  });

  it('and its photo sent twice are one photo, replaced once', async () => {
    const shop = await makeShop(api);
    const { preview, photo } = await device(shop);
    const [first, again] = [await preview(), await preview()];
    expect([again.status, again.photo]).toEqual([201, first.photo]);
    await photo();
    const once = await photo(await shade(900, 600, '#777').jpeg().toBuffer());
    expect([once.status, once.photo]).toEqual([201, first.photo]);
    expect(await rowsOf(shop)).toEqual([isWhole]);
  });

  it('that is refused leaves nothing behind, and its photo comes all the same', async () => {
    const shop = await makeShop(api);
    const { preview, photo, id, cookie } = await device(shop);
    const refusals: [() => ReturnType<typeof preview>, number, RegExp][] = [
      [() => preview(Buffer.from('%PDF-1.7 no picture')), 400, /The file is a PDF/],
      [() => preview(small.subarray(0, 900)), 400, /damaged or was cut short/],
      [() => preview(Buffer.alloc(250_001)), 413, /250001 bytes; at most 250000/],
      [() => preview(small, 'none'), 400, /previewOf in Upload-Metadata is "none"/],
      [() => upload(api, cookie, small, { id, previewOf: id }), 400, /needed is an id of its own/],
    ];
    for (const [send, status, words] of refusals) {
      const { status: is, error } = await send();
      expect([is, error?.message]).toEqual([status, expect.stringMatching(words)]);
    }
    expect(await rowsOf(shop)).toEqual([]);
    expect((await readdir(path.join(api.uploadsDir, 'arriving'))).join()).not.toContain(
      shop.shopId,
    );
    expect((await photo()).status).toBe(204);
    expect(await rowsOf(shop)).toEqual([isWhole]);
  });

  it('of somebody else never meets the photo, nor does their photo meet the preview', async () => {
    const shop = await makeShop(api);
    const mine = await device(shop);
    const theirs = await device(shop, 'inspector');
    const stranger = await device(await makeShop(api));
    const first = await mine.preview();
    const others = [
      await theirs.preview(small, mine.id),
      await upload(api, theirs.cookie, whole, { id: mine.id }),
      await stranger.preview(small, mine.id),
    ];
    for (const { status, photo } of others) {
      expect(status).toBe(204);
      expect(photo).not.toBe(first.photo);
    }
    const mineNow = await bytesOf(mine.cookie, `/photos/${first.photo}/original`);
    expect((await sharp(mineNow.bytes).metadata()).width).toBe(1600);
  });

  it('is on the owner’s page, keeps its place, words, marks and pair, and the address changes with what is behind it', async () => {
    const shop = await makeShop(api);
    const { finding, link } = await offeredFinding(shop);
    const { preview, photo, cookie } = await device(shop);
    const { clientEventId } = finding;
    const first = await preview();
    const join = (photoId: string | null, beforeId?: string | null) =>
      mutate(
        shop,
        'mechanic',
        'addFindingPhoto',
        { clientEventId, photoId, ...(beforeId && { beforeId }) },
        'photos { id thumbUrl marks { kind } } photoPairs { beforeId afterId }',
      );
    const joined = expectDone(await join(first.photo));
    const thumbUrl = `/photos/${first.photo}/thumb`;
    expect(joined.photos).toEqual([
      { id: first.photo, thumbUrl: `${thumbUrl}?preview`, marks: [] },
    ]);
    const later = await upload(api, cookie, await shade(64, 48, '#345').jpeg().toBuffer());
    expectDone(await join(later.photo, first.photo));
    const marks = [{ kind: 'ring', x: 500, y: 500, toX: 600, toY: 500, words: '' }];
    const marked = await shop.as<{ markPhoto: { id?: string } }>(
      'mechanic',
      'mutation($input: MarkPhotoInput!) { markPhoto(input: $input) { ... on Photo { id } } }',
      { input: { photoId: first.photo, marks } },
    );
    expect(marked.data?.markPhoto.id).toBe(first.photo);
    const shownTo = async () => {
      const answer = await fetch(`${api.origin}${link}/photos/${first.photo}/middle`);
      const { channels } = await sharp(Buffer.from(await answer.arrayBuffer())).stats();
      return (channels[0]?.mean ?? 0) > 128 ? 'small' : 'whole';
    };
    expect(await shownTo()).toBe('small');
    expect(JSON.stringify((await pageAt(api, link)).order)).toContain(first.photo);
    await photo();
    expect(await shownTo()).toBe('whole');
    expect(expectDone(await join(first.photo))).toMatchObject({
      photos: [{ id: first.photo, thumbUrl, marks: [{ kind: 'ring' }] }, { id: later.photo }],
      photoPairs: [{ beforeId: first.photo, afterId: later.photo }],
    });
  });
});

it('the database replaces a preview once, and nothing else of a photo', async () => {
  const shop = await makeShop(api);
  const { preview, photo } = await device(shop);
  await preview();
  const owner = await rawConnection(api.database.adminUrl);
  const change = (what: string) =>
    stateOf(owner.query(`UPDATE photo SET ${what} WHERE shop_id = $1`, [shop.shopId]));
  for (const what of [
    'width = 1',
    "preview = false, words = 'Another'",
    'preview = false, added_at = now()',
    'preview = true, width = 1',
  ])
    expect(await change(what), what).toBe('FL001');
  expect(await stateOf(owner.query('DELETE FROM photo WHERE shop_id = $1', [shop.shopId]))).toBe(
    'FL001',
  );
  await photo();
  expect(await change('preview = false, width = 1')).toBe('FL001');
  expect(await change('preview = true')).toBe('FL001');
  await owner.end();
});

it('an entry waits for a photo that is on its way; days later it keeps the preview for good', async () => {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, {
    findings: [{ title: 'Chafed hose', class: 'discrepancy' }],
  });
  const { preview, photo } = await device(shop);
  const first = await preview();
  await shop.inside((tx) =>
    tx.findingPhoto.create({
      data: {
        findingId: visit.findingIds[0] ?? '',
        photoId: keyOf('Photo', first.photo ?? '', 'id'),
        position: 1,
      },
    }),
  );
  const asked = {
    orderId: visit.order,
    bookId: globalId('RecordBook', shop.bookId),
    outcome: 'not_airworthy_list_given' as const,
  };
  expect((await entryDraft(shop, asked)).missing).toEqual([
    expect.objectContaining({
      what: expect.stringMatching(/the whole of a photo of finding 1: it is still on its way/),
    }),
  ]);
  expect((await signEntry(shop, asked)).message).toMatch(/still on its way/);

  // Three days later: as if it had come then, which only the owner of the database can write.
  const owner = await rawConnection(api.database.adminUrl);
  await owner.query('ALTER TABLE photo DISABLE TRIGGER appended_only');
  await owner.query(`UPDATE photo SET added_at = now() - interval '3 days' WHERE shop_id = $1`, [
    shop.shopId,
  ]);
  await owner.query('ALTER TABLE photo ENABLE TRIGGER appended_only');
  await owner.end();
  const [{ sha256 = '' } = {}] = await shop.inside((tx) => tx.photo.findMany());
  expect((await signEntry(shop, asked)).id).toBeDefined();
  const signed = async () => {
    const { bytes } = await exported(api, shop);
    expect(await verify(bytes)).toMatchObject({ holds: true, faults: [], seal: { absent: [] } });
    return new Set(bytes.toString('latin1').match(/attachments\/[0-9a-f]{64}\.jpg/g));
  };
  expect(await signed()).toEqual(new Set([`attachments/${sha256}.jpg`]));
  expect((await photo()).photo).toBe(first.photo);
  expect(await rowsOf(shop)).toEqual([isWhole]);
  // What was signed still names the preview, whose file is there; the whole one lies beside it.
  const [now] = await shop.inside((tx) => tx.photo.findMany());
  expect(await signed()).toEqual(
    new Set([`attachments/${sha256}.jpg`, `attachments/${now?.sha256}.jpg`]),
  );
});
