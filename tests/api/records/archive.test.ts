import { execFileSync } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { Readable } from 'node:stream';
import { extract } from 'tar-stream';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import { decide, makeOrder } from '../guarantees/rows.ts';
import { aircraft, exported, shopWithRecords, verify } from './archive-shop.ts';

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

describe('an exported archive', () => {
  it('holds, has the entries, their photos and papers, and is read by other programs', async () => {
    const { shop, photo } = await shopWithRecords(api);
    const { status, bytes } = await exported(api, shop);
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
    const { shop } = await shopWithRecords(api, 1);
    const { data } = await shop.as<{ node: { proof: { key: string; links: number } } }>(
      'inspector',
      'query($id: ID!) { node(id: $id) { ... on Aircraft { proof { key links } } } }',
      { id: aircraft(shop) },
    );
    const { bytes } = await exported(api, shop);
    expect(data?.node.proof.links).toBe(1);
    expect((await verify(bytes, { trusted: [data?.node.proof.key] })).holds).toBe(true);
    expect((await verify(bytes, { trusted: ['A'.repeat(43)] })).holds).toBe(false);
  });
  it('has what owners decided, or only its digest: the chain holds either way', async () => {
    const shop = await makeShop(api);
    const { revisionId } = await makeOrder(shop);
    // Written before there was a chain: it is linked when it is first needed.
    await decide(shop, revisionId);
    const whole = await exported(api, shop);
    const without = await exported(api, shop, '?decisions=without');
    for (const [{ bytes }, leftOut] of [
      [whole, 0],
      [without, 1],
    ] as const)
      expect(await verify(bytes)).toMatchObject({ holds: true, decisions: 1, leftOut });
    expect(whole.bytes.includes('"choice":"go_ahead"')).toBe(true);
    expect(without.bytes.includes('"choice"')).toBe(false);
  });
  it('says which photos the shop has no more, and holds', async () => {
    const { shop, photo } = await shopWithRecords(api);
    const file = path.join(api.uploadsDir, shop.shopId, `${photo}-original.jpg`);
    await writeFile(file, 'rotten');
    expect(await verify((await exported(api, shop)).bytes)).toMatchObject({
      holds: true,
      attachments: 0,
      seal: { absent: [photo] },
    });
  });
  it('of an aircraft without records holds too', async () => {
    const shop = await makeShop(api);
    expect(await verify((await exported(api, shop)).bytes)).toMatchObject({
      holds: true,
      links: 0,
    });
  });
  it('is not for a mechanic, not of another shop, and not of nonsense', async () => {
    const [{ shop }, other] = [await shopWithRecords(api, 1), await makeShop(api)];
    expect((await exported(api, shop, '', 'mechanic')).status).toBe(403);
    expect((await exported(api, shop, '?decisions=perhaps')).status).toBe(400);
    const response = await fetch(`${api.origin}/archives/${aircraft(shop)}.tar`, {
      headers: { cookie: await other.cookie('inspector') },
    });
    expect(response.status).toBe(404);
  });
});
