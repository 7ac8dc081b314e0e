import { execFileSync } from 'node:child_process';
import { createHash, randomUUID } from 'node:crypto';
import { mkdir, mkdtemp, rm, stat, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { Readable } from 'node:stream';
import { globalId } from '@fairlead/api/ids';
import { keyFile } from '@fairlead/api/shop-key';
import { verifyArchive } from '@fairlead/proof';
import { extract } from 'tar-stream';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { makeVisit, signEntry } from '../../support/visit.ts';
import { decide, makeOrder } from '../guarantees/rows.ts';

let api: TestApi;
let folder: string;
beforeAll(async () => {
  api = await startApi();
  folder = await mkdtemp(path.join(os.tmpdir(), 'fairlead-archive-test-'));
});
afterAll(async () => {
  await rm(folder, { recursive: true });
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** A shop whose aircraft has signed entries, the first of them with a listed finding and its photo. */
async function shopWithRecords(visits = 2, serial?: string) {
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
    if (first) photo = await addPhoto(shop, visit.findingIds[0] ?? '');
    const signed = await signEntry(shop, {
      orderId: visit.order,
      bookId: globalId('RecordBook', shop.bookId),
      outcome: first ? 'not_airworthy_list_given' : 'airworthy',
    });
    expect(signed.id, signed.message).toBeDefined();
  }
  return { shop, photo };
}

async function addPhoto(shop: TestShop, findingId: string): Promise<string> {
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

const aircraft = (shop: TestShop) => globalId('Aircraft', shop.aircraftId);
async function exported(shop: TestShop, query = '', role: 'inspector' | 'mechanic' = 'inspector') {
  const response = await fetch(`${api.origin}/archives/${aircraft(shop)}.tar${query}`, {
    headers: { cookie: await shop.cookie(role) },
  });
  return { status: response.status, bytes: Buffer.from(await response.arrayBuffer()) };
}
const verify = (bytes: Buffer, options = {}) => verifyArchive(Readable.from([bytes]), options);
async function received(shop: TestShop, bytes: Buffer, query = '', header = '1') {
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

describe('the chain of an aircraft', () => {
  it('grows by one with each entry, in its transaction, and every link is signed', async () => {
    const { shop } = await shopWithRecords(3);
    const links = await shop.inside((tx) =>
      tx.recordLink.findMany({ orderBy: { seq: 'asc' }, include: { key: true } }),
    );
    expect(links.map(({ seq, kind }) => [seq, kind])).toEqual(
      [1, 2, 3].map((seq) => [seq, 'entry']),
    );
    expect(new Set(links.map(({ key }) => key.fingerprint)).size).toBe(1);
    const { mode } = await stat(keyFile(api.uploadsDir, shop.shopId));
    expect(mode & 0o777).toBe(0o600);
  });
  it('has no gap and no twin when several sign at the same moment', async () => {
    const shop = await makeShop(api);
    const visits = await Promise.all([1, 2, 3, 4].map(() => makeVisit(shop)));
    await Promise.all(
      visits.map(({ order }) =>
        signEntry(shop, {
          orderId: order,
          bookId: globalId('RecordBook', shop.bookId),
          outcome: 'airworthy',
        }),
      ),
    );
    const links = await shop.inside((tx) => tx.recordLink.findMany({ orderBy: { seq: 'asc' } }));
    expect(links.map(({ seq }) => seq)).toEqual([1, 2, 3, 4]);
  });
  it('takes no link that does not join, and no change of one that does', async () => {
    const { shop } = await shopWithRecords(1);
    const [link] = await shop.inside((tx) => tx.recordLink.findMany());
    const { id: _, ...again } = link!;
    for (const wrong of [
      { seq: 3 },
      { seq: 2, content: '{}' },
      { seq: 2, statement: link!.statement.replace('"seq":1', '"seq":2') },
    ])
      await expect(
        shop.inside((tx) =>
          tx.recordLink.create({ data: { ...again, subjectId: randomUUID(), ...wrong } }),
        ),
      ).rejects.toThrow(/does not join/);
    await expect(
      shop.inside((tx) => tx.recordLink.updateMany({ data: { content: '{}' } })),
    ).rejects.toThrow();
  });
  it('no entry is kept without its link', async () => {
    const { shop } = await shopWithRecords(1);
    const [entry] = await shop.inside((tx) => tx.recordEntry.findMany());
    const { id: _, ...again } = entry!;
    await expect(shop.inside((tx) => tx.recordEntry.create({ data: again }))).rejects.toThrow(
      /only with its signed link/,
    );
    expect(await shop.inside((tx) => tx.recordEntry.count())).toBe(1);
  });
});

describe('an exported archive', () => {
  it('holds, has the entries, their photos and papers, and is read by other programs', async () => {
    const { shop, photo } = await shopWithRecords();
    const { status, bytes } = await exported(shop);
    expect(status).toBe(200);
    const verdict = await verify(bytes);
    expect(verdict).toMatchObject({ holds: true, faults: [], entries: 2, attachments: 1 });
    expect(verdict.seal).toMatchObject({ links: 2, absent: [], shop: { name: 'Test Shop' } });
    const names: string[] = [];
    const lines: string[] = [];
    const reader = extract();
    Readable.from([bytes]).pipe(reader);
    for await (const entry of reader) {
      names.push(entry.header.name);
      const chunks: Buffer[] = [];
      for await (const chunk of entry) chunks.push(chunk as Buffer);
      const held = Buffer.concat(chunks);
      if (entry.header.name === 'records.jsonl')
        lines.push(...held.toString().trimEnd().split('\n'));
      if (entry.header.name.endsWith('.pdf')) expect(held.subarray(0, 5).toString()).toBe('%PDF-');
    }
    expect(names).toEqual([
      'README.txt',
      'entries-0001-0002.pdf',
      'records.jsonl',
      `attachments/${photo}.jpg`,
      'seal.json',
    ]);
    const [entry] = await shop.inside((tx) =>
      tx.recordEntry.findMany({ orderBy: { signedAt: 'asc' } }),
    );
    expect(JSON.parse(lines[0]!).content).toMatchObject({
      text: entry!.text,
      signature: 'Test inspector',
      tisHundredths: 246_300,
      photos: [{ sha256: photo, words: 'The hose' }],
      discrepancies: [{ class: 'discrepancy' }],
    });
    // GNU tar, from Debian.
    const file = path.join(folder, 'whole.tar');
    await writeFile(file, bytes);
    expect(execFileSync('tar', ['-tf', file], { encoding: 'utf8' }).trim().split('\n')).toEqual(
      names,
    );
  });
  it('with the fingerprint that entries print, and with no other', async () => {
    const { shop } = await shopWithRecords(1);
    const { data } = await shop.as<{ node: { proof: { key: string; links: number } } }>(
      'inspector',
      'query($id: ID!) { node(id: $id) { ... on Aircraft { proof { key links } } } }',
      { id: aircraft(shop) },
    );
    const { bytes } = await exported(shop);
    expect(data?.node.proof.links).toBe(1);
    expect((await verify(bytes, { trusted: [data?.node.proof.key] })).holds).toBe(true);
    expect((await verify(bytes, { trusted: ['A'.repeat(43)] })).holds).toBe(false);
  });
  it('has what owners decided, or only its digest: the chain holds either way', async () => {
    const shop = await makeShop(api);
    const { revisionId } = await makeOrder(shop);
    // Written before there was a chain: it is linked when it is first needed.
    await decide(shop, revisionId);
    const whole = await exported(shop);
    const without = await exported(shop, '?decisions=without');
    for (const [{ bytes }, leftOut] of [
      [whole, 0],
      [without, 1],
    ] as const)
      expect(await verify(bytes)).toMatchObject({ holds: true, decisions: 1, leftOut });
    expect(whole.bytes.includes('"choice":"go_ahead"')).toBe(true);
    expect(without.bytes.includes('"choice"')).toBe(false);
  });
  it('says which photos the shop has no more, and holds', async () => {
    const { shop, photo } = await shopWithRecords();
    const file = path.join(api.uploadsDir, shop.shopId, `${photo}-original.jpg`);
    await writeFile(file, 'rotten');
    expect(await verify((await exported(shop)).bytes)).toMatchObject({
      holds: true,
      attachments: 0,
      seal: { absent: [photo] },
    });
  });
  it('of an aircraft without records holds too', async () => {
    const shop = await makeShop(api);
    expect(await verify((await exported(shop)).bytes)).toMatchObject({ holds: true, links: 0 });
  });
  it('is not for a mechanic, not of another shop, and not of nonsense', async () => {
    const [{ shop }, other] = [await shopWithRecords(1), await makeShop(api)];
    expect((await exported(shop, '', 'mechanic')).status).toBe(403);
    expect((await exported(shop, '?decisions=perhaps')).status).toBe(400);
    const response = await fetch(`${api.origin}/archives/${aircraft(shop)}.tar`, {
      headers: { cookie: await other.cookie('inspector') },
    });
    expect(response.status).toBe(404);
  });
});

describe('an archive from another shop', () => {
  it('is kept as it came, read-only, with its proof, and goes on with the next archive', async () => {
    const [{ shop }, next] = [await shopWithRecords(2, 'SAME-1'), await makeShop(api)];
    await next.inside((tx) =>
      tx.aircraft.update({ where: { id: next.aircraftId }, data: { serial: 'SAME-1' } }),
    );
    const { bytes } = await exported(shop);
    const verdict = await verify(bytes);
    const took = await received(next, bytes, `?keys=${verdict.seal?.key}`);
    expect(took).toMatchObject({ status: 201, body: { id: expect.any(String) } });
    expect((await received(next, bytes)).body.id).toBe(took.body.id);
    const { data } = await next.as<{ node: { received: Record<string, unknown>[] } }>(
      'inspector',
      'query($id: ID!) { node(id: $id) { ... on Aircraft { received { shop links key compared fault receivedBy { name } records { number kind text signature leftOut } } } } }',
      { id: aircraft(next) },
    );
    expect(data?.node.received).toEqual([
      {
        ...{ shop: 'Test Shop, Nowhere Strand', links: 2, compared: true, fault: null },
        key: verdict.seal?.key,
        receivedBy: { name: 'Test inspector' },
        records: [1, 2].map((number) => ({
          ...{ number, kind: 'entry', leftOut: false, signature: 'Test inspector' },
          text: expect.stringContaining('inspection'),
        })),
      },
    ]);
    await expect(
      next.inside((tx) => tx.receivedLink.updateMany({ data: { line: '' } })),
    ).rejects.toThrow();
    const on = await verify((await exported(next)).bytes);
    expect(on).toMatchObject({ holds: true, received: [{ holds: true, entries: 2 }] });
  });
  it.each<[string, (bytes: Buffer) => Buffer, string, RegExp, number]>([
    [
      'changed on the way',
      (bytes) => {
        bytes[3000]! ^= 1;
        return bytes;
      },
      '',
      /Nothing was kept: the archive does not hold/,
      422,
    ],
    ['cut off', (bytes) => bytes.subarray(0, -3000), '', /cut off/, 422],
    ['empty', () => Buffer.alloc(0), '', /cut off at byte 0/, 422],
    [
      'sealed with another key than was named',
      (bytes) => bytes,
      `?keys=${'A'.repeat(43)}`,
      /not one of those you named/,
      422,
    ],
    ['of another aircraft', (bytes) => bytes, '', /is of .*serial OTHER-1; .* has serial/, 400],
    [
      'with a fingerprint that is none',
      (bytes) => bytes,
      '?keys=abc',
      /“abc” is no fingerprint/,
      400,
    ],
  ])('%s is refused, and nothing is kept', async (what, change, query, words, status) => {
    const { shop } = await shopWithRecords(
      1,
      what === 'of another aircraft' ? 'OTHER-1' : undefined,
    );
    const next = await makeShop(api);
    const { bytes } = await exported(shop);
    const answer = await received(next, change(bytes), query);
    expect([answer.status, answer.body.error?.message]).toEqual([
      status,
      expect.stringMatching(words),
    ]);
    expect(await next.inside((tx) => tx.receivedArchive.count())).toBe(0);
  });
  it('is not taken from a foreign page, nor the shop’s own', async () => {
    const { shop } = await shopWithRecords(1);
    const { bytes } = await exported(shop);
    expect((await received(shop, bytes, '', '')).status).toBe(403);
    expect(await received(shop, bytes)).toMatchObject({
      status: 409,
      body: { error: { message: expect.stringMatching(/this shop's own records/) } },
    });
  });
});
