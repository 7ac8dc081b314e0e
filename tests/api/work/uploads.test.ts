import { randomBytes, randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import { readdir, readFile, rename, rm, symlink, utimes, writeFile } from 'node:fs/promises';
import http from 'node:http';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import { createApp, listen } from '@fairlead/api/app';
import { globalId } from '@fairlead/api/ids';
import { sweepUploads } from '@fairlead/api/work/upload-files';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { begin, bring, tus, upload, uploaded } from '../../support/upload.ts';
import { expectDone, expectRefused, makeOrder, mutate } from './orders.ts';

let api: TestApi;
let photo: Buffer;
beforeAll(async () => {
  api = await startApi();
  // Noise, because it cannot be made small: some 1.2 MB.
  photo = await sharp(randomBytes(900 * 600 * 3), { raw: { width: 900, height: 600, channels: 3 } })
    .jpeg({ quality: 95 })
    .toBuffer();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const photosOf = (shop: TestShop) => shop.inside((tx) => tx.photo.findMany());
const arriving = () => path.join(api.uploadsDir, 'arriving');
const filesOf = async (shop: TestShop) =>
  (await readdir(arriving())).filter((name) => name.startsWith(shop.shopId));
const fileOf = (shop: TestShop, id: string) =>
  path.join(arriving(), `${shop.shopId}_${shop.people.mechanic.id}_${id}`);
const original = async (cookie: string, id: string | null) =>
  Buffer.from(
    await (
      await fetch(`${api.origin}/photos/${id}/original`, { headers: { cookie } })
    ).arrayBuffer(),
  );

/** Announces all the bytes from an offset on, brings some of them and breaks the line. */
const cutAfter = (cookie: string, id: string, offset: number, some: number) =>
  new Promise<void>((resolve) => {
    const request = http.request(`${api.origin}/uploads/${id}`, {
      method: 'PATCH',
      headers: {
        cookie,
        'x-fairlead': '1',
        'tus-resumable': '1.0.0',
        'content-type': 'application/offset+octet-stream',
        'upload-offset': offset,
        'content-length': photo.length - offset,
      },
    });
    request.on('error', () => resolve());
    request.on('close', () => resolve());
    request.write(photo.subarray(offset, offset + some), () =>
      setTimeout(() => request.destroy(), 200),
    );
  });

describe('a line that breaks', () => {
  it('three times in one photo: each time it goes on from where it was, and the photo is the same', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const id = randomUUID();
    expect(await begin(api, cookie, photo.length, { id })).toMatchObject({
      status: 201,
      location: `/uploads/${id}`,
    });
    let offset = 0;
    for (let cut = 1; cut <= 3; cut += 1) {
      await cutAfter(cookie, id, offset, Math.floor(photo.length / 5));
      const asked = await tus(api, cookie, 'HEAD', `/uploads/${id}`);
      expect([asked.status, asked.length]).toEqual([200, photo.length]);
      expect(asked.offset).toBeGreaterThan(offset);
      offset = asked.offset ?? 0;
      expect((await readFile(fileOf(shop, id))).equals(photo.subarray(0, offset))).toBe(true);
    }
    expect(offset).toBeLessThan(photo.length);
    expect(await photosOf(shop)).toEqual([]);
    const last = await bring(api, cookie, id, offset, photo.subarray(offset));
    expect([last.status, last.offset]).toEqual([204, photo.length]);

    const whole = await upload(api, cookie, photo);
    expect(whole.photo).not.toBe(last.photo);
    expect(await original(cookie, last.photo)).toEqual(await original(cookie, whole.photo));
    expect(await filesOf(shop)).toEqual([]);
  });

  it('an answer that is lost: what is sent again is the same photo, and no byte of it is taken twice', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const id = randomUUID();
    const first = await upload(api, cookie, photo, { id, words: 'Streak' });
    const again = await begin(api, cookie, photo.length, { id, words: 'Streak' });
    expect([again.status, again.offset, again.photo]).toEqual([201, photo.length, first.photo]);
    expect(await photosOf(shop)).toMatchObject([{ words: 'Streak' }]);
    // The last piece again, whose address is no more, and the creation again while it is under way.
    expect((await bring(api, cookie, id, photo.length, Buffer.alloc(0))).status).toBe(404);
    const other = randomUUID();
    await begin(api, cookie, photo.length, { id: other });
    await bring(api, cookie, other, 0, photo.subarray(0, 500));
    const begun = await begin(api, cookie, photo.length, { id: other });
    expect([begun.status, begun.error?.message]).toEqual([
      409,
      expect.stringMatching(/begun already, 500 of \d+ bytes are here/),
    ]);
    const wrong = await bring(api, cookie, other, 0, photo);
    expect([wrong.status, wrong.error?.code]).toEqual([409, 'CONFLICT']);
    expect((await bring(api, cookie, other, 500, photo.subarray(500))).status).toBe(204);
  });

  it('ten last pieces at once make one photo', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const id = randomUUID();
    await begin(api, cookie, photo.length, { id });
    await writeFile(fileOf(shop, id), photo);
    const answers = await Promise.all(
      Array.from({ length: 10 }, () => bring(api, cookie, id, photo.length, Buffer.alloc(0))),
    );
    expect(answers.filter(({ status }) => status === 204).length).toBeGreaterThan(0);
    // One that waits longer than a second for the others is told to ask again (409, 503): a slow machine is no fault.
    expect(answers.filter(({ status }) => ![204, 404, 409, 503].includes(status))).toEqual([]);
    expect(await photosOf(shop)).toHaveLength(1);
    expect((await begin(api, cookie, photo.length, { id })).photo).not.toBeNull();
  });

  it('the server killed after the last byte and before the photo was recorded: the next try finishes it', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const id = randomUUID();
    await begin(api, cookie, photo.length, { id, words: 'Streak' });
    // What a killed process leaves: all the bytes, and no photo.
    await writeFile(fileOf(shop, id), photo);
    const next = await createApp({
      DATABASE_URL: api.database.appUrl,
      WEB_ORIGIN: 'http://shop.test',
      UPLOADS_DIR: api.uploadsDir,
      SIGN_IN_SECRET: api.secret,
    });
    const server = await listen(next.app, 0);
    const origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
    try {
      const here = await tus({ origin }, cookie, 'HEAD', `/uploads/${id}`);
      expect([here.status, here.offset]).toEqual([200, photo.length]);
      const done = await bring({ origin }, cookie, id, photo.length, Buffer.alloc(0));
      expect(done.status).toBe(204);
      expect(await photosOf(shop)).toMatchObject([{ words: 'Streak' }]);
      expect((await begin({ origin }, cookie, photo.length, { id })).photo).toBe(done.photo);
    } finally {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
      await next.close();
    }
  });
});

describe('a disk that takes nothing', () => {
  const says = /disk takes no photo just now: it is full, or.*Keep the photo/;

  it('the folder cannot be written: the photo is refused for now, and goes through afterwards', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const id = randomUUID();
    const folder = path.join(api.uploadsDir, shop.shopId);
    await begin(api, cookie, photo.length, { id });
    await writeFile(folder, 'a file where a folder is needed');
    const refused = await bring(api, cookie, id, 0, photo);
    expect([refused.status, refused.error?.message]).toEqual([503, expect.stringMatching(says)]);
    expect(await photosOf(shop)).toEqual([]);
    await rm(folder);
    const done = await bring(api, cookie, id, photo.length, Buffer.alloc(0));
    expect(done.status).toBe(204);

    const away = `${arriving()}-away`;
    await rename(arriving(), away);
    await writeFile(arriving(), '');
    const begun = await begin(api, cookie, photo.length);
    expect([begun.status, begun.error?.message]).toEqual([503, expect.stringMatching(says)]);
    await rm(arriving());
    await rename(away, arriving());
  });

  it.skipIf(!existsSync('/dev/full'))('the disk is full', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const id = randomUUID();
    await begin(api, cookie, photo.length, { id });
    await rm(fileOf(shop, id));
    await symlink('/dev/full', fileOf(shop, id));
    const refused = await bring(api, cookie, id, 0, photo);
    expect([refused.status, refused.error?.message]).toEqual([503, expect.stringMatching(says)]);
    await rm(fileOf(shop, id));
  });
});

describe('whose it is', () => {
  it('another shop, or another person of the same, finds no such upload, by any method', async () => {
    const [shop, other] = [await makeShop(api), await makeShop(api)];
    const cookie = await shop.cookie('mechanic');
    const id = randomUUID();
    await begin(api, cookie, photo.length, { id });
    for (const as of [await other.cookie('mechanic'), await shop.cookie('inspector')]) {
      expect((await tus(api, as, 'HEAD', `/uploads/${id}`)).status).toBe(404);
      expect((await bring(api, as, id, 0, photo)).error).toMatchObject({
        code: 'NOT_FOUND',
        message: 'There is no such upload in this shop.',
      });
      expect((await tus(api, as, 'DELETE', `/uploads/${id}`)).status).toBe(404);
    }
    expect((await tus(api, cookie, 'HEAD', `/uploads/${id}`)).offset).toBe(0);
    // The id that a device made is theirs, too: it begins another upload and becomes another photo.
    const theirs = await upload(api, await other.cookie('mechanic'), photo, { id });
    const mine = await bring(api, cookie, id, 0, photo);
    expect([theirs.status, mine.status]).toEqual([204, 204]);
    expect(theirs.photo).not.toBe(mine.photo);
  });

  it('nobody signed in, or a foreign page with the cookie alone, is refused by every method', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const id = randomUUID();
    await begin(api, cookie, photo.length, { id });
    for (const [method, address] of [
      ['POST', '/uploads'],
      ['HEAD', `/uploads/${id}`],
      ['PATCH', `/uploads/${id}`],
      ['DELETE', `/uploads/${id}`],
    ] as const) {
      const headers = { 'upload-length': '9', 'upload-offset': '0' };
      expect((await tus(api, '', method, address, { headers })).status, method).toBe(401);
      const foreign = { headers: { ...headers, 'x-fairlead': '' } };
      expect((await tus(api, cookie, method, address, foreign)).status, method).toBe(403);
    }
    expect((await tus(api, cookie, 'HEAD', `/uploads/${id}`)).offset).toBe(0);
    const down = await fetch(`${api.origin}/uploads/${id}`, { headers: { cookie } });
    expect(down.status).toBe(404);
  });

  it('is given up with DELETE, and what cannot be read is refused with what is needed', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const id = randomUUID();
    await begin(api, cookie, photo.length, { id });
    expect((await tus(api, cookie, 'DELETE', `/uploads/${id}`)).status).toBe(204);
    expect((await tus(api, cookie, 'HEAD', `/uploads/${id}`)).status).toBe(404);
    expect(await filesOf(shop)).toEqual([]);
    const create = (headers: Record<string, string>) =>
      tus(api, cookie, 'POST', '/uploads', { headers });
    for (const [headers, words] of [
      [{}, /Upload-Length is ""/],
      [{ 'upload-length': '-1' }, /Upload-Length is "-1": needed is how many bytes/],
      [{ 'upload-length': '9' }, /Upload-Metadata is "": needed are id and words/],
      [{ 'upload-length': '9', 'upload-metadata': 'id !' }, /Upload-Metadata is "id !"/],
      [{ 'upload-length': '9', 'upload-metadata': 'id bm9uZQ==' }, /is "none": needed is a UUID/],
      [{ 'upload-length': '9', 'upload-defer-length': '1' }, /Upload-Metadata/],
    ] as [Record<string, string>, RegExp][])
      expect((await create(headers)).error?.message).toMatch(words);
    expect((await tus(api, cookie, 'HEAD', '/uploads/..%2F..%2Fetc')).status).toBe(400);
    await begin(api, cookie, 100, { id });
    const more = await bring(api, cookie, id, 0, photo);
    expect([more.status, more.error?.code]).toEqual([413, 'TOO_LARGE']);
    expect((await tus(api, cookie, 'PATCH', `/uploads/${id}`)).error?.message).toMatch(
      /Upload-Offset is missing/,
    );
  });

  it('sixty that are sent in part are enough for one person', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    await begin(api, cookie, 9);
    for (let n = 1; n < 60; n += 1) await writeFile(fileOf(shop, randomUUID()), '');
    const { status, error } = await begin(api, cookie, 9);
    expect([status, error?.message]).toEqual([422, expect.stringMatching(/60 photos/)]);
    expect((await begin(api, await shop.cookie('inspector'), 9)).status).toBe(201);
  });
});

it('an upload to which nothing was added for four days is swept, and no other', async () => {
  const shop = await makeShop(api);
  const cookie = await shop.cookie('mechanic');
  const [old, late] = [randomUUID(), randomUUID()];
  const now = new Date();
  const ago = (hours: number) => new Date(now.getTime() - hours * 3_600_000);
  for (const id of [old, late]) {
    await begin(api, cookie, photo.length, { id });
    await utimes(`${fileOf(shop, id)}.json`, ago(200), ago(200));
  }
  await utimes(fileOf(shop, old), ago(97), ago(97));
  await utimes(fileOf(shop, late), ago(95), ago(95));
  expect(await sweepUploads(api.uploadsDir, now)).toBe(2);
  expect((await tus(api, cookie, 'HEAD', `/uploads/${old}`)).status).toBe(404);
  expect((await tus(api, cookie, 'HEAD', `/uploads/${late}`)).status).toBe(200);
  expect(await sweepUploads(path.join(api.uploadsDir, 'nowhere'), now)).toBe(0);
});

describe('a photo that joins its finding later', () => {
  const join = (
    shop: TestShop,
    input: Record<string, unknown>,
    role: 'mechanic' | 'front_desk' = 'mechanic',
  ) => mutate(shop, role, 'addFindingPhoto', input, 'number photos { id words }');

  it('joins once, in the order in which it came, and up to twelve', async () => {
    const [shop, other] = [await makeShop(api), await makeShop(api)];
    const cookie = await shop.cookie('mechanic');
    const order = await makeOrder(shop);
    const clientEventId = randomUUID();
    const small = await sharp({
      create: { width: 30, height: 20, channels: 3, background: '#777' },
    })
      .jpeg()
      .toBuffer();
    const first = await uploaded(api, cookie, small, 'First');
    const before = await join(shop, { clientEventId, photoId: first });
    expectRefused(before, 'NOT_FOUND', /no such finding/);
    expectDone(
      await mutate(
        shop,
        'mechanic',
        'noteFinding',
        {
          orderId: order.id,
          title: 'Grey streak',
          words: '',
          zone: '',
          class: 'discrepancy',
          photoIds: [],
          foundAt: '2026-03-02T10:00:00Z',
          clientEventId,
        },
        'number',
      ),
    );
    const both = await Promise.all(
      Array.from({ length: 4 }, () => join(shop, { clientEventId, photoId: first })),
    );
    for (const one of both) expect(expectDone(one).photos).toEqual([{ id: first, words: 'First' }]);
    const more: string[] = [];
    for (let n = 2; n <= 12; n += 1) {
      const { id: key } = await shop.inside((tx) =>
        tx.photo.create({
          data: {
            shopId: shop.shopId,
            sha256: 'ab'.repeat(32),
            mime: 'image/jpeg',
            width: 30,
            height: 20,
            bytes: 1,
          },
        }),
      );
      const id = globalId('Photo', key);
      more.push(id);
      expectDone(await join(shop, { clientEventId, photoId: id }));
    }
    const thirteenth = await uploaded(api, cookie, small);
    const refused = await join(shop, { clientEventId, photoId: thirteenth });
    expectRefused(refused, 'AGAINST_RULE', /Finding 1 has 12 photos already/);
    const again = expectDone(await join(shop, { clientEventId, photoId: first }));
    expect((again.photos as { id: string }[]).map(({ id }) => id)).toEqual([first, ...more]);

    const theirs = await uploaded(api, await other.cookie('mechanic'), small);
    expectRefused(
      await join(shop, { clientEventId, photoId: theirs }),
      'NOT_FOUND',
      /no such photo/,
    );
    expectRefused(
      await join(other, { clientEventId, photoId: theirs }),
      'NOT_FOUND',
      /no such finding/,
    );
    expectRefused(await join(shop, { clientEventId: 'x', photoId: first }), 'BAD_INPUT', /UUID/);
    expectRefused(
      await join(shop, { clientEventId, photoId: first }, 'front_desk'),
      'FORBIDDEN',
      /mechanic/,
    );
  });
});
