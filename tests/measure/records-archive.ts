// 20 years of an aircraft: 2,000 entries and 500 photos exported over HTTP and verified. In tests/:
// npx vitest run --config measure/vitest.config.ts records-archive. Wanted: both within 20 s, memory flat.
import { createHash, randomBytes, randomUUID } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { globalId } from '@fairlead/api/ids';
import { linkRecords } from '@fairlead/api/record-chain';
import { shopKey } from '@fairlead/api/shop-key';
import { inShop } from '@fairlead/database';
import { verifyArchive } from '@fairlead/proof';
import { it } from 'vitest';
import { startApi } from '../support/api.ts';
import { makeShop } from '../support/shop.ts';
import { makeVisit } from '../support/visit.ts';

const [ENTRIES, PHOTOS, PHOTO_BYTES] = [2000, 500, 1_500_000];
const megabytes = (bytes: number) => (bytes / 1e6).toFixed(0);

it('prints how long an archive of 20 years takes', async () => {
  const api = await startApi();
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, { findings: [{ title: 'Seen', class: 'observation' }] });
  const key = await shopKey(api.uploadsDir, shop.shopId);
  const folder = path.join(api.uploadsDir, shop.shopId);
  fs.mkdirSync(folder, { recursive: true });
  const photos = Array.from({ length: PHOTOS }, () => {
    const bytes = randomBytes(PHOTO_BYTES);
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    fs.writeFileSync(path.join(folder, `${sha256}-original.jpg`), bytes);
    return { id: randomUUID(), sha256 };
  });
  await shop.inside(async (tx) => {
    await tx.photo.createMany({
      data: photos.map(({ id, sha256 }) => ({
        ...{ id, shopId: shop.shopId, sha256, mime: 'image/jpeg', width: 4, height: 3 },
        ...{ bytes: PHOTO_BYTES, words: 'A place on the aircraft' },
      })),
    });
    await tx.findingPhoto.createMany({
      data: photos.map(({ id: photoId }, position) => ({
        ...{ findingId: visit.findingIds[0] ?? '', photoId, position },
      })),
    });
  });
  const text = 'Replaced the part named, by the manual, chapter 5. '.repeat(24);
  await inShop(
    api.client,
    { shopId: shop.shopId, personId: null, requestId: randomUUID() },
    async (tx) => {
      await tx.recordEntry.createMany({
        data: Array.from({ length: ENTRIES }, (_, index) => ({
          ...{ orderId: visit.orderId, bookId: shop.bookId, rule: 'maintenance' as const, text },
          completedOn: new Date('2026-03-14'),
          ...{ tisHundredths: 246_300 + index, outcome: 'airworthy' as const },
          ...{ signedById: shop.people.inspector.id, signature: 'Test inspector' },
          ...{ certificateKind: 'mechanic_airframe' as const, certificateNumber: 'T-1001' },
        })),
      });
      await linkRecords(tx, key, shop.aircraftId, new Date());
    },
    { timeoutMs: 300_000 },
  );
  const cookie = await shop.cookie('inspector');
  const file = path.join(api.uploadsDir, 'out.tar');
  for (let run = 0; run < 2; run += 1) {
    let [peak, from] = [0, process.memoryUsage().rss];
    const watch = setInterval(() => (peak = Math.max(peak, process.memoryUsage().rss)), 50);
    const started = performance.now();
    const used = process.cpuUsage();
    const response = await fetch(
      `${api.origin}/archives/${globalId('Aircraft', shop.aircraftId)}.tar`,
      {
        headers: { cookie },
      },
    );
    if (response.status !== 200) throw new Error(`answered ${response.status}`);
    await pipeline(Readable.fromWeb(response.body as never), fs.createWriteStream(file));
    const exported = performance.now() - started;
    const exportPeak = peak - from;
    const { user, system } = process.cpuUsage(used);
    const busy = (user + system) / 1e6;
    [peak, from] = [0, process.memoryUsage().rss];
    const again = performance.now();
    const verdict = await verifyArchive(fs.createReadStream(file, { highWaterMark: 1 << 18 }));
    const verified = performance.now() - again;
    clearInterval(watch);
    if (!verdict.holds) throw new Error(JSON.stringify(verdict.faults));
    console.info(
      `${verdict.entries} entries, ${verdict.attachments} photos, ${megabytes(fs.statSync(file).size)} MB: exported in ${(exported / 1000).toFixed(1)} s (processor ${busy.toFixed(1)} s, resident memory +${megabytes(exportPeak)} MB at most), verified in ${(verified / 1000).toFixed(1)} s (+${megabytes(Math.max(0, peak - from))} MB); load ${os.loadavg()[0]?.toFixed(1)} on ${os.cpus().length} processors`,
    );
  }
  await api.stop();
}, 900_000);
