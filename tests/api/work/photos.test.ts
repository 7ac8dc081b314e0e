import { randomUUID } from 'node:crypto';
import { readdir, stat } from 'node:fs/promises';
import path from 'node:path';
import { globalId } from '@fairlead/api/ids';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { begin, upload, uploaded } from '../../support/upload.ts';
import { carried, corners, heic, hollowHeic, hollowPng, located, taken } from './pictures.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const get = async (cookie: string, url: string) => {
  const response = await fetch(`${api.origin}${url}`, { headers: { cookie } });
  return { response, bytes: Buffer.from(await response.arrayBuffer()) };
};
const filesOf = async (shop: TestShop) =>
  readdir(path.join(api.uploadsDir, shop.shopId)).catch(() => [] as string[]);
const refused = async (shop: TestShop, body: Buffer, status: number, words: RegExp) => {
  const { status: is, error } = await upload(api, await shop.cookie('mechanic'), body);
  expect([is, error?.message]).toEqual([status, expect.stringMatching(words)]);
  expect(await filesOf(shop)).toEqual([]);
  expect((await readdir(path.join(api.uploadsDir, 'arriving'))).join()).not.toContain(shop.shopId);
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
const sizes = ['original', 'large', 'middle', 'thumb'] as const;

describe('a photo that is sent', () => {
  it('is kept in four sizes and given back to the people of the shop, to be kept by their browser alone', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const photo = await uploaded(
      api,
      cookie,
      await halves(3000, 1500).jpeg().toBuffer(),
      'Streak below the collector – links',
    );
    const made: Record<string, (number | undefined)[]> = {};
    for (const size of sizes) {
      const { response, bytes } = await get(cookie, `/photos/${photo}/${size}`);
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
      made[size] = [width, height];
    }
    expect(made).toEqual({
      original: [2400, 1200],
      large: [1600, 800],
      middle: [800, 400],
      thumb: [320, 160],
    });
    const [row] = await shop.inside((tx) => tx.photo.findMany());
    expect(row).toMatchObject({
      words: 'Streak below the collector – links',
      width: 2400,
      height: 1200,
      addedById: shop.people.mechanic.id,
    });
    expect((await filesOf(shop)).sort()).toEqual(
      ['large', 'middle', 'original', 'thumb'].map((size) => `${row?.sha256}-${size}.jpg`),
    );
    expect(
      (await stat(path.join(api.uploadsDir, shop.shopId, `${row?.sha256}-original.jpg`))).size,
    ).toBe(row?.bytes);
  });

  it('is the right way up in every size, in all eight ways of holding the camera', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    for (let orientation = 1; orientation <= 8; orientation += 1) {
      const body = await taken(orientation);
      expect((await sharp(body).metadata()).orientation).toBe(orientation);
      if (orientation > 1)
        expect(await corners(body)).not.toEqual(['red', 'green', 'blue', 'yellow']);
      const photo = await uploaded(api, cookie, body);
      for (const size of sizes) {
        const { bytes } = await get(cookie, `/photos/${photo}/${size}`);
        const { width, height, orientation: left } = await sharp(bytes).metadata();
        expect([orientation, width, height, left]).toEqual([orientation, 240, 160, undefined]);
        expect(await corners(bytes)).toEqual(['red', 'green', 'blue', 'yellow']);
      }
    }
  });

  it('says nothing of where, with what and for whom it was taken, in any size', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const body = await located(halves(800, 400)).jpeg().toBuffer();
    expect(carried(body)).toEqual(
      expect.arrayContaining(['APP1 Exif', expect.stringMatching(/^APP1 http:.*xap/)]),
    );
    // 0x8825 is the tag that points at the place (Exif 2.32, tag 34853), in either order of bytes.
    const pointsAtPlace = (bytes: Buffer) =>
      ['2588', '8825'].some((tag) => bytes.includes(Buffer.from(tag, 'hex')));
    expect(pointsAtPlace((await sharp(body).metadata()).exif ?? Buffer.alloc(0))).toBe(true);
    for (const source of [body, heic]) {
      expect(source.includes('Test camera')).toBe(true);
      const photo = await uploaded(api, cookie, source);
      for (const size of sizes) {
        const { bytes } = await get(cookie, `/photos/${photo}/${size}`);
        // Nothing but the picture and the mark that it is a JPEG: no Exif, XMP, IPTC, profile, comment or second picture.
        expect(carried(bytes).filter((segment) => segment !== 'APP0 JFIF')).toEqual([]);
        for (const word of ['Test camera', 'Test owner', 'GPS', 'Exif', 'adobe'])
          expect(bytes.includes(word)).toBe(false);
        const { exif, xmp, iptc } = await sharp(bytes).metadata();
        expect([exif, xmp, iptc]).toEqual([undefined, undefined, undefined]);
      }
    }
  });

  it('may be HEIC, as telephones write it, and is kept as JPEG', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const photo = await uploaded(api, cookie, heic);
    const { bytes } = await get(cookie, `/photos/${photo}/original`);
    const { width, height, format } = await sharp(bytes).metadata();
    expect([width, height, format]).toEqual([96, 64, 'jpeg']);
    expect(await corners(bytes)).toEqual(['red', 'green', 'blue', 'yellow']);
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
      const photo = await uploaded(api, cookie, body);
      const { bytes } = await get(cookie, `/photos/${photo}/original`);
      const { data, info } = await sharp(bytes).raw().toBuffer({ resolveWithObject: true });
      expect([info.width, info.height, data[0], data[1], data[2]]).toEqual([60, 40, 255, 255, 255]);
    }
  });

  it('is judged by its bytes: what was hung on behind the picture is gone, whatever its name was', async () => {
    const shop = await makeShop(api);
    const cookie = await shop.cookie('mechanic');
    const hidden = Buffer.from('PK\x03\x04 hidden.exe <script>alert(1)</script>');
    const photo = await uploaded(
      api,
      cookie,
      Buffer.concat([await halves(90, 60).jpeg().toBuffer(), hidden]),
    );
    for (const size of sizes) {
      const { bytes } = await get(cookie, `/photos/${photo}/${size}`);
      expect(bytes.subarray(-2).toString('hex')).toBe('ffd9');
      expect(bytes.includes('script') || bytes.includes('hidden')).toBe(false);
    }
  });
});

describe('what is no photo', () => {
  it('is refused with what it is and what is needed, and nothing is kept', async () => {
    const shop = await makeShop(api);
    const needed = 'needed is a photo as JPEG, PNG, WebP or HEIC';
    const jpeg = await halves(1200, 800).jpeg().toBuffer();
    const png = await halves(300, 200).png().toBuffer();
    const text = (words: string) => Buffer.from(words, 'latin1');
    const cases: [Buffer, RegExp][] = [
      [Buffer.alloc(0), /The file is empty/],
      [text('just words'), /not a picture that can be read here/],
      [text('MZ this is a program'), /is a program/],
      [
        text('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'),
        /an SVG drawing/,
      ],
      [text('<?xml version="1.0"?>\n<!-- x -->\n<svg><script/></svg>'), /an SVG drawing/],
      [text('<!DOCTYPE html><script>alert(1)</script>'), /a web page/],
      [text('GIF89a............'), /a GIF/],
      [text('GIF89a/*\xff\xd8\xff*/=alert(1)'), /a GIF/],
      [text('%PDF-1.7 ...'), /a PDF/],
      [text('%PDF-1.7 \xff\xd8\xff\xe0 a picture hung on behind'), /a PDF/],
      [text('PK\x03\x04 ...'), /a ZIP archive/],
      [text('....ftypavif....'), /in AVIF/],
      [text('....ftypisom....'), /a film/],
    ];
    for (const [body, words] of cases) {
      await refused(shop, body, 400, words);
      await refused(shop, body, 400, new RegExp(needed));
    }
    const damaged = /damaged or was cut short.*Send it again/;
    for (const body of [
      Buffer.concat([Buffer.from([0xff, 0xd8, 0xff, 0xe0]), text('JFIF and then a lie')]),
      jpeg.subarray(0, Math.floor(jpeg.length / 2)),
      jpeg.subarray(0, 3),
      png.subarray(0, png.length - 40),
      heic.subarray(0, 600),
      text('\0\0\0\x18ftypheic and then a lie'),
    ])
      await refused(shop, body, 400, damaged);
  });

  it('a picture that would fill the memory when it is opened is refused before it is', async () => {
    const shop = await makeShop(api);
    const before = process.memoryUsage().rss;
    for (const body of [await hollowPng(30_000, 30_000), hollowHeic(30_000, 30_000)])
      await refused(shop, body, 413, /30000 × 30000 pixels; at most 64 million/);
    // 900 million pixels opened would be 2.7 GB and more.
    expect(process.memoryUsage().rss - before).toBeLessThan(500_000_000);
    const bomb = await sharp({
      create: { width: 12_000, height: 6000, channels: 3, background: '#777777' },
      limitInputPixels: false,
    })
      .png({ compressionLevel: 9 })
      .toBuffer();
    await refused(shop, bomb, 413, /12000 × 6000 pixels; at most 64 million/);
  });

  it('more than 25 MB is refused before a byte of it comes', async () => {
    const shop = await makeShop(api);
    const { status, error } = await begin(api, await shop.cookie('mechanic'), 26 * 1024 * 1024);
    expect([status, error?.message]).toEqual([
      413,
      'The photo has 26 MB; at most 25 MB are taken. Send it smaller.',
    ]);
  });

  it('words that are too long are refused', async () => {
    const shop = await makeShop(api);
    const { status, error } = await begin(api, await shop.cookie('mechanic'), 90, {
      words: 'x'.repeat(501),
    });
    expect([status, error?.message]).toEqual([
      400,
      expect.stringMatching(/have 501 characters.*at most 500/),
    ]);
  });
});

describe('who may', () => {
  it('a photo of another shop is not there, nor is a size that nobody made', async () => {
    const [shop, other] = [await makeShop(api), await makeShop(api)];
    const cookie = await shop.cookie('mechanic');
    const photo = await uploaded(api, cookie, await halves(40, 40).jpeg().toBuffer());
    const url = `/photos/${photo}/original`;
    const statusOf = async (as: string, address: string) =>
      (await get(as, address)).response.status;
    expect(await statusOf(await other.cookie('manager'), url)).toBe(404);
    expect(await statusOf('', url)).toBe(401);
    expect(await statusOf(cookie, `/photos/${photo}/huge`)).toBe(404);
    expect(await statusOf(cookie, `/photos/${photo}/toString`)).toBe(404);
    expect(await statusOf(cookie, `/photos/${globalId('Photo', randomUUID())}/thumb`)).toBe(404);
    expect(await statusOf(cookie, '/photos/..%2F..%2Fetc/thumb')).toBe(400);
    expect(await statusOf(cookie, url)).toBe(200);
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
