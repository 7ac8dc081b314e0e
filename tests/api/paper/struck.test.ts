import { Readable } from 'node:stream';
import { globalId } from '@fairlead/api/ids';
import { extract } from 'tar-stream';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import { makeVisit, signEntry } from '../../support/visit.ts';
import { exported } from '../records/archive-shop.ts';
import { boxesOf, inkOf, picture, poppler, print, words } from './printed.ts';

/** That a corrected entry is struck through visibly, and stays readable: common practice, no source. */
let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const DPI = 200;
/** Whether a line runs through a word from its first letter to its last. */
async function isStruck(bytes: Buffer, word: string): Promise<boolean> {
  const box = (await boxesOf(bytes)).find(({ text }) => text === word);
  if (!box) throw new Error(`“${word}” is not on the paper`);
  const ink = await inkOf(await picture(bytes, { page: box.page, dpi: DPI }), box, DPI);
  return (ink.split(' ')[1] ?? '').split('/').some((row) => !row.slice(1, -1).includes('.'));
}

async function corrected() {
  const shop = await makeShop(api);
  const visit = await makeVisit(shop, { items: [{ workDone: 'Oil drained and replaced.' }] });
  const asked = {
    ...{ orderId: visit.order, bookId: globalId('RecordBook', shop.bookId), outcome: 'airworthy' },
  };
  const { id = '' } = await signEntry(shop, asked);
  const before = await print(api, shop, `entry/${id}.pdf`);
  const by = await signEntry(shop, {
    ...{ ...asked, correctsId: id, reason: 'Wrong extent', extent: 'the whole aircraft' },
  });
  expect(by.id, by.message).toBeDefined();
  return { shop, id, byId: by.id ?? '', before: before.bytes };
}

it.runIf(poppler)('on paper, of every size, and not before it was corrected', async () => {
  const { shop, id, byId, before } = await corrected();
  expect(await isStruck(before, 'drained')).toBe(false);
  for (const address of [`entry/${id}.pdf`, `entry/${id}.pdf?paper=sheet`]) {
    const { bytes } = await print(api, shop, address);
    expect(await isStruck(bytes, 'drained'), address).toBe(true);
    expect(await words(bytes)).toMatch(
      /Struck through: corrected by the entry that Test inspector signed on/,
    );
  }
  const { bytes } = await print(api, shop, `entry/${byId}.pdf`);
  expect(await isStruck(bytes, 'drained')).toBe(false);
});

it.runIf(poppler)('in the archive, where each names the other’s record', async () => {
  const { shop } = await corrected();
  const reader = extract();
  Readable.from([(await exported(api, shop)).bytes]).pipe(reader);
  let paper = Buffer.alloc(0);
  for await (const member of reader) {
    const chunks: Buffer[] = [];
    for await (const chunk of member) chunks.push(chunk as Buffer);
    if (member.header.name.endsWith('.pdf')) paper = Buffer.concat(chunks);
  }
  expect(await isStruck(paper, 'drained')).toBe(true);
  const said = await words(paper);
  expect(said).toContain('Struck through: corrected by record 2');
  expect(said).toContain('Corrects record 1');
});
