import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';
import { uploaded } from '../../support/upload.ts';
import { expectDone, mutate } from '../work/orders.ts';
import { offeredFinding, pageAt } from './owner-shop.ts';

/** What the owner is shown of a place before its correction and after it. */

let api: TestApi;
let shop: TestShop;
beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api);
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** A photo of one shade, joined to a finding; with the one of before where it was taken again. */
async function photo(clientEventId: string, grey: number, beforeId?: string): Promise<string> {
  const background = { r: grey, g: grey, b: grey };
  const jpeg = await sharp({ create: { width: 64, height: 48, channels: 3, background } })
    .jpeg()
    .toBuffer();
  const photoId = await uploaded(api, await shop.cookie('mechanic'), jpeg, `Grey ${grey}`);
  const input = { clientEventId, photoId, ...(beforeId && { beforeId }) };
  expectDone(await mutate(shop, 'mechanic', 'addFindingPhoto', input));
  return photoId;
}
const shades = async (link: string, id: string) => {
  const answer = await fetch(`${api.origin}${link}/photos/${id}/middle`);
  if (answer.status !== 200) return answer.status;
  const { channels } = await sharp(Buffer.from(await answer.arrayBuffer())).stats();
  return Math.round(channels[0]?.mean ?? -1);
};

it('tells the owner which photo was taken again after the correction, and of which', async () => {
  const { finding, link } = await offeredFinding(shop);
  const shown = async () => {
    const { order } = await pageAt(api, link);
    const [one] = (order?.findings ?? []) as unknown as {
      photos: { id: string }[];
      pairs: { beforeId: string; afterId: string }[];
    }[];
    return { photos: one?.photos.map(({ id }) => id), pairs: one?.pairs };
  };
  const [left, right] = [
    await photo(finding.clientEventId, 40),
    await photo(finding.clientEventId, 60),
  ];
  expect(await shown()).toEqual({ photos: [left, right], pairs: [] });
  const after = await photo(finding.clientEventId, 200, right);
  const again = await photo(finding.clientEventId, 220, right);
  expect(await shown()).toEqual({
    photos: [left, right, after, again],
    pairs: [
      { beforeId: right, afterId: after },
      { beforeId: right, afterId: again },
    ],
  });
  // The link gives each of them, and it is that one.
  expect(await Promise.all([left, right, after, again].map((id) => shades(link, id)))).toEqual([
    40, 60, 200, 220,
  ]);
});

it('tells nothing of the pairs of another order', async () => {
  const [mine, other] = [await offeredFinding(shop), await offeredFinding(shop)];
  const before = await photo(other.finding.clientEventId, 40);
  const after = await photo(other.finding.clientEventId, 200, before);
  expect(JSON.stringify(await pageAt(api, mine.link))).not.toMatch(
    new RegExp(`${before}|${after}`),
  );
  expect(await shades(mine.link, after)).toBe(404);
  expect(JSON.stringify(await pageAt(api, other.link))).toContain(after);
});
