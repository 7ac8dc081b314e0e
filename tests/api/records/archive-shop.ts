import { createHash, randomUUID } from 'node:crypto';
import { mkdir, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { Readable } from 'node:stream';
import { globalId } from '@fairlead/api/ids';
import { verifyArchive } from '@fairlead/proof';
import { expect } from 'vitest';
import type { TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeVisit, signEntry } from '../../support/visit.ts';

/** A shop whose aircraft has signed entries, the first of them with a listed finding and its photo. */
export async function shopWithRecords(api: TestApi, visits = 2, serial?: string) {
  const shop = await makeShop(api);
  if (serial)
    await shop.inside((tx) =>
      tx.aircraft.update({ where: { id: shop.aircraftId }, data: { serial } }),
    );
  let photo = '';
  for (let count = 0; count < visits; count += 1) {
    const first = count === 0;
    const visit = await makeVisit(
      shop,
      first ? { findings: [{ title: 'Chafed hose', class: 'discrepancy' }] } : {},
    );
    if (first) photo = await addPhoto(api, shop, visit.findingIds[0] ?? '');
    const signed = await signEntry(shop, {
      orderId: visit.order,
      bookId: globalId('RecordBook', shop.bookId),
      outcome: first ? 'not_airworthy_list_given' : 'airworthy',
    });
    expect(signed.id, signed.message).toBeDefined();
  }
  return { shop, photo };
}

async function addPhoto(api: TestApi, shop: TestShop, findingId: string): Promise<string> {
  const bytes = Buffer.from(`a photo ${randomUUID()}`);
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  await mkdir(path.join(api.uploadsDir, shop.shopId), { recursive: true });
  await writeFile(path.join(api.uploadsDir, shop.shopId, `${sha256}-original.jpg`), bytes);
  await shop.inside(async (tx) => {
    const { id: photoId } = await tx.photo.create({
      data: {
        ...{ shopId: shop.shopId, sha256, mime: 'image/jpeg', width: 4, height: 3 },
        ...{ bytes: bytes.length, words: 'The hose' },
      },
    });
    await tx.findingPhoto.create({ data: { findingId, photoId, position: 1 } });
  });
  return sha256;
}

export const aircraft = (shop: TestShop) => globalId('Aircraft', shop.aircraftId);
export async function exported(
  api: TestApi,
  shop: TestShop,
  query = '',
  role: 'inspector' | 'mechanic' = 'inspector',
) {
  const response = await fetch(`${api.origin}/archives/${aircraft(shop)}.tar${query}`, {
    headers: { cookie: await shop.cookie(role) },
  });
  return { status: response.status, bytes: Buffer.from(await response.arrayBuffer()) };
}
export const verify = (bytes: Buffer, options = {}) =>
  verifyArchive(Readable.from([bytes]), options);
export async function received(
  api: TestApi,
  shop: TestShop,
  bytes: Buffer,
  query = '',
  header = '1',
) {
  const response = await fetch(`${api.origin}/archives/${aircraft(shop)}${query}`, {
    method: 'POST',
    headers: { cookie: await shop.cookie('inspector'), 'x-fairlead': header },
    body: new Uint8Array(bytes),
  });
  return {
    status: response.status,
    body: (await response.json()) as { id?: string; error?: { code: string; message: string } },
  };
}
