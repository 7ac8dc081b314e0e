import { randomUUID } from 'node:crypto';
import { readdir, stat } from 'node:fs/promises';
import path from 'node:path';
import { globalId } from '@fairlead/api/ids';
import sharp, { type Sharp } from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Uploaded {
  id: string;
  url: string;
  thumbUrl: string;
  width: number;
  height: number;
  error?: { code: string; message: string };
}

const send = async (
  cookie: string,
  body: Buffer,
  { headers = {}, query = '' }: { headers?: Record<string, string>; query?: string } = {},
) => {
  const response = await fetch(`${api.origin}/photos${query}`, {
    method: 'POST',
    headers: { 'content-type': 'image/jpeg', 'x-fairlead': '1', cookie, ...headers },
    body: new Uint8Array(body),
  });
  return { status: response.status, answer: (await response.json()) as Uploaded };
};
const get = async (cookie: string, url: string) => {
  const response = await fetch(`${api.origin}${url}`, { headers: { cookie } });
  return { response, bytes: Buffer.from(await response.arrayBuffer()) };
};
const filesOf = async (shop: TestShop) =>
  readdir(path.join(api.uploadsDir, shop.shopId)).catch(() => [] as string[]);
const refused = async (shop: TestShop, body: Buffer, status: number, words: RegExp) => {
  const { status: is, answer } = await send(await shop.cookie('mechanic'), body);
  expect([is, answer.error?.message]).toEqual([status, expect.stringMatching(words)]);
  expect(await filesOf(shop)).toEqual([]);
  expect(await shop.inside((tx) => tx.photo.count())).toBe(0);
};

/** Left half red, right half blue: shows which way up it is. */
const halves = (width: number, height: number) =>
  sharp({ create: { width, height, channels: 3, background: '#ff0000' } }).composite([
    {
      input: { create: { width: width / 2, height, channels: 3, background: '#0000ff' } },
      left: width / 2,
      top: 0,
    },
  ]);
const located = (picture: Sharp) =>
  picture.withMetadata({ orientation: 6 }).withExifMerge({
    IFD0: { Make: 'Test camera' },
    IFD3: {
      GPSLatitudeRef: 'N',
      GPSLatitude: '50/1 7/1 3/1',
      GPSLongitudeRef: 'W',
      GPSLongitude: '5/1 28/1 40/1',
    },
  });
const colourAt = async (bytes: Buffer, left: number, top: number) => {
  const { data } = await sharp(bytes)
    .extract({ left, top, width: 1, height: 1 })
    .raw()
    .toBuffer({ resolveWithObject: true });
  return (data[0] ?? 0) > (data[2] ?? 0) ? 'red' : 'blue';
};

describe('a photo that is sent', () => {
  it('is kept in three sizes and given back to the people of the shop, to be kept by their browser alone', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const { status, answer } = await send(cookie, await halves(3000, 1500).jpeg().toBuffer(), {
      query: `?words=${encodeURIComponent('Streak below the collector – links')}`,
    });
    expect(status).toBe(201);
    expect(answer).toEqual({
      id: answer.id,
      url: `/photos/${answer.id}/original`,
      thumbUrl: `/photos/${answer.id}/thumb`,
      width: 2400,
      height: 1200,
    });
    const sizes: Record<string, (number | undefined)[]> = {};
    for (const size of ['original', 'large', 'thumb']) {
      const { response, bytes } = await get(cookie, `/photos/${answer.id}/${size}`);
      expect(response.status).toBe(200);
      expect(
        Object.fromEntries(
          ['content-type', 'cache-control', 'x-content-type-options', 'vary'].map((name) => [
            name,
            response.headers.get(name),
          ]),
        ),
      ).toEqual({
        'content-type': 'image/jpeg',
        'cache-control': 'private, max-age=31536000, immutable',
        'x-content-type-options': 'nosniff',
        vary: 'cookie',
      });
      const { width, height, format } = await sharp(bytes).metadata();
      expect(format).toBe('jpeg');
      sizes[size] = [width, height];
    }
    expect(sizes).toEqual({ original: [2400, 1200], large: [1600, 800], thumb: [320, 160] });
    const [row] = await shop.inside((tx) => tx.photo.findMany());
    expect(row).toMatchObject({
      words: 'Streak below the collector – links',
      width: 2400,
      height: 1200,
      addedById: shop.people.mechanic.id,
    });
    expect((await filesOf(shop)).sort()).toEqual(
      ['large', 'original', 'thumb'].map((size) => `${row?.sha256}-${size}.jpg`),
    );
    expect(
      (await stat(path.join(api.uploadsDir, shop.shopId, `${row?.sha256}-original.jpg`))).size,
    ).toBe(row?.bytes);
  });

  it('is the right way up, and says nothing of where and with what it was taken', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    // Orientation 6: the camera was turned; row 0 of the data is the right-hand side of the scene (Exif 2.32, tag 274).
    const turned = await located(halves(800, 400)).jpeg().toBuffer();
    const before = await sharp(turned).metadata();
    // 0x8825 is the tag that points at the place (Exif 2.32, tag 34853).
    const placed = ['2588', '8825'].some((tag) => before.exif?.includes(Buffer.from(tag, 'hex')));
    expect([before.orientation, before.exif?.includes('Test camera'), placed]).toEqual([
      6,
      true,
      true,
    ]);
    const { answer } = await send(cookie, turned);
    expect([answer.width, answer.height]).toEqual([400, 800]);
    for (const size of ['original', 'large', 'thumb']) {
      const { bytes } = await get(cookie, `/photos/${answer.id}/${size}`);
      const { width = 0, height = 0, exif, xmp, iptc, orientation } = await sharp(bytes).metadata();
      expect([exif, xmp, iptc, orientation]).toEqual([undefined, undefined, undefined, undefined]);
      expect(bytes.includes('Test camera') || bytes.includes('GPS') || bytes.includes('Exif')).toBe(
        false,
      );
      // Turned a quarter clockwise, what was left is above.
      expect([
        await colourAt(bytes, width / 2, 5),
        await colourAt(bytes, width / 2, height - 5),
      ]).toEqual(['red', 'blue']);
    }
  });

  it('may be PNG or WebP as well; what was clear becomes white, and small pictures stay small', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('inspector');
    const clear = sharp({
      create: { width: 60, height: 40, channels: 4, background: { r: 0, g: 0, b: 0, alpha: 0 } },
    });
    for (const body of [
      await clear.clone().png().toBuffer(),
      await clear.clone().webp({ lossless: true }).toBuffer(),
    ]) {
      const { status, answer } = await send(cookie, body);
      expect([status, answer.width, answer.height]).toEqual([201, 60, 40]);
      const { data } = await sharp((await get(cookie, answer.url)).bytes)
        .raw()
        .toBuffer({ resolveWithObject: true });
      expect([data[0], data[1], data[2]]).toEqual([255, 255, 255]);
    }
  });

  it('sent ten times at once is one photo', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const body = await halves(600, 400).jpeg().toBuffer();
    const answers = await Promise.all(Array.from({ length: 10 }, () => send(cookie, body)));
    expect(new Set(answers.map(({ status, answer }) => `${status} ${answer.id}`)).size).toBe(1);
    expect(await filesOf(shop)).toHaveLength(3);
    expect(await shop.inside((tx) => tx.photo.count())).toBe(1);
  });
});

describe('what is no photo', () => {
  it('is refused by what it is, and nothing is kept', async () => {
    const shop = await makeShop(api);
    const jpeg = await halves(1200, 800).jpeg().toBuffer();
    await refused(shop, Buffer.alloc(0), 400, /file is empty/);
    await refused(
      shop,
      Buffer.from('MZ this is a program'),
      400,
      /not a picture that can be read here; needed is a photo as JPEG, PNG or WebP/,
    );
    await refused(
      shop,
      Buffer.from(
        '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><script>alert(1)</script></svg>',
      ),
      400,
      /not a picture/,
    );
    await refused(shop, Buffer.from('GIF89a............'), 400, /not a picture/);
    await refused(shop, Buffer.from('%PDF-1.7 ...'), 400, /not a picture/);
    await refused(
      shop,
      Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xe0]), Buffer.from('JFIF and then a lie')]),
      400,
      /damaged or was cut short/,
    );
    await refused(
      shop,
      jpeg.subarray(0, Math.floor(jpeg.length / 2)),
      400,
      /damaged or was cut short/,
    );
    await refused(shop, jpeg.subarray(0, 3), 400, /damaged or was cut short/);
    const png = await halves(300, 200).png().toBuffer();
    await refused(shop, png.subarray(0, png.length - 40), 400, /damaged or was cut short/);
    const heic = Buffer.concat([
      Buffer.from([0, 0, 0, 24]),
      Buffer.from('ftypheic'),
      Buffer.alloc(40),
    ]);
    await refused(shop, heic, 400, /HEIC.*Set the phone’s camera to JPEG/);
  });

  it('a picture that would fill the memory when it is opened is refused before it is', async () => {
    const shop = await makeShop(api);
    const bomb = await sharp({
      create: { width: 12_000, height: 6000, channels: 3, background: '#777777' },
      limitInputPixels: false,
    })
      .png({ compressionLevel: 9 })
      .toBuffer();
    expect(bomb.length).toBeLessThan(1_000_000);
    await refused(shop, bomb, 413, /12000 × 6000 pixels; at most 64 million/);
  });

  it('more than 25 MB, or compressed on the way, is refused', async () => {
    const shop = await makeShop(api);
    await refused(shop, Buffer.alloc(25 * 1024 * 1024 + 1, 0xff), 413, /larger than 25 MB/);
    const zipped = await send(await shop.cookie('mechanic'), Buffer.from('x'), {
      headers: { 'content-encoding': 'gzip' },
    });
    expect(zipped.status).toBe(400);
  });

  it('words that are too long are refused', async () => {
    const shop = await makeShop(api);
    const { status, answer } = await send(
      await shop.cookie('mechanic'),
      await halves(40, 40).jpeg().toBuffer(),
      { query: `?words=${'x'.repeat(501)}` },
    );
    expect([status, answer.error?.message]).toEqual([400, expect.stringMatching(/at most 500/)]);
    expect(await filesOf(shop)).toEqual([]);
  });
});

describe('who may', () => {
  it('a page of somebody else cannot send with the cookie alone, and nobody can without it', async () => {
    const shop = await makeShop(api);
    const body = await halves(40, 40).jpeg().toBuffer();
    const foreign = await send(await shop.cookie('mechanic'), body, {
      headers: { 'x-fairlead': '' },
    });
    expect([foreign.status, foreign.answer.error?.code]).toEqual([403, 'FORBIDDEN']);
    const nobody = await send('', body);
    expect([nobody.status, nobody.answer.error?.code]).toEqual([401, 'SIGN_IN_NEEDED']);
    expect(await filesOf(shop)).toEqual([]);
  });

  it('a photo of another shop is not there, nor is a size that nobody made', async () => {
    const [shop, other] = [await makeShop(api), await makeShop(api)];
    const cookie = await shop.cookie('mechanic');
    const { answer } = await send(cookie, await halves(40, 40).jpeg().toBuffer());
    const statusOf = async (as: string, url: string) => (await get(as, url)).response.status;
    expect(await statusOf(await other.cookie('manager'), answer.url)).toBe(404);
    expect(await statusOf('', answer.url)).toBe(401);
    expect(await statusOf(cookie, `/photos/${answer.id}/huge`)).toBe(404);
    expect(await statusOf(cookie, `/photos/${answer.id}/toString`)).toBe(404);
    expect(await statusOf(cookie, `/photos/${globalId('Photo', randomUUID())}/thumb`)).toBe(404);
    expect(await statusOf(cookie, '/photos/..%2F..%2Fetc/thumb')).toBe(400);
    expect(await statusOf(cookie, answer.url)).toBe(200);
  });

  it('a photo whose file is gone is answered plainly', async () => {
    const shop = await makeShop(api);
    const { id } = await shop.inside((tx) =>
      tx.photo.create({
        data: {
          shopId: shop.shopId,
          sha256: 'ab'.repeat(32),
          mime: 'image/jpeg',
          width: 1,
          height: 1,
          bytes: 1,
        },
      }),
    );
    const { response, bytes } = await get(
      await shop.cookie('mechanic'),
      `/photos/${globalId('Photo', id)}/thumb`,
    );
    expect([response.status, response.headers.get('cache-control')]).toEqual([404, null]);
    expect(JSON.parse(bytes.toString())).toEqual({
      error: { code: 'NOT_FOUND', message: 'There is no such photo file in this shop.' },
    });
  });
});
