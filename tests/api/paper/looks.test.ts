import { mm } from '@fairlead/api/paper/sizes';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { draftedQuote, issuedInvoice, plannedItem, signedEntry } from './full-shop.ts';
import { type Box, boxesOf, pageSizes, picture, poppler, print } from './printed.ts';

/** The papers as pictures: what can be measured of how they look. */
let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});
const look = it.skipIf(!poppler);
const DPI = 72;

interface Looked {
  width: number;
  height: number;
  at(x: number, y: number): [red: number, green: number, blue: number];
}

async function pageOf(bytes: Buffer, page: number): Promise<Looked> {
  const { data, info } = await sharp(await picture(bytes, { page, dpi: DPI }))
    .removeAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  const at = (x: number, y: number): [number, number, number] => {
    const from = (y * info.width + x) * info.channels;
    return [data[from] ?? 0, data[from + 1] ?? 0, data[from + 2] ?? 0];
  };
  return { width: info.width, height: info.height, at };
}

/** The middle of a word's box: what is above and below of it is room for marks. */
const core = ({ left, right, top, bottom }: Box) => {
  const [middle, half] = [(top + bottom) / 2, (bottom - top) * 0.22];
  return { left: left + 0.4, right: right - 0.4, top: middle - half, bottom: middle + half };
};

/** Words that stand on each other. */
function collisions(boxes: readonly Box[]): string[] {
  const found: string[] = [];
  for (const [index, one] of boxes.entries())
    for (const other of boxes.slice(index + 1)) {
      if (one.page !== other.page) continue;
      const [a, b] = [core(one), core(other)];
      if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
        found.push(`page ${one.page}: "${one.text}" on "${other.text}"`);
    }
  return found;
}

const long =
  'Replacement of the starter and its relay with the wiring beside it renewed, at position';

async function papers() {
  const photo = await sharp({
    create: { width: 900, height: 600, channels: 3, background: '#c03020' },
  })
    .jpeg()
    .toBuffer();
  const [quote, cards, entry, listed, billed] = [
    await draftedQuote(api),
    await plannedItem(api),
    await signedEntry(api),
    await signedEntry(api, { listed: true }),
    await issuedInvoice(api, { lines: 24, title: long, picture: photo }),
  ];
  return [
    [quote.shop, `quote/${quote.quote.id}.pdf`, 'a4'],
    [quote.shop, `quote/${quote.quote.id}.pdf`, 'letter'],
    [cards.shop, `job-card/${cards.order}.pdf`, 'a4'],
    [entry.shop, `entry/${entry.id}.pdf`, 'letter'],
    [entry.shop, `entry/${entry.id}.pdf`, 'sheet'],
    [listed.shop, `discrepancies/${listed.id}.pdf`, 'a4'],
    [billed.shop, `invoice/${billed.invoice.id}.pdf`, 'letter'],
  ] as const;
}

look(
  'nothing stands beyond the frame or on something else, all ink is grey, and the title block is bottom right on every page',
  async () => {
    let red = 0;
    for (const [shop, address, paper] of await papers()) {
      const { bytes } = await print(api, shop, `${address}?paper=${paper}`);
      const sizes = pageSizes(bytes);
      const boxes = await boxesOf(bytes);
      expect(collisions(boxes), address).toEqual([]);
      for (const [index, [wide, high]] of sizes.entries()) {
        const page = await pageOf(bytes, index + 1);
        // The outer of the two frames, less a pixel: nothing is printed further out.
        const bare = Math.floor(mm(paper === 'sheet' ? 2.2 : 6.6)) - 1;
        let [beyond, coloured, darkest] = [0, 0, 255];
        for (let y = 0; y < page.height; y += 1)
          for (let x = 0; x < page.width; x += 1) {
            const [r, g, b] = page.at(x, y);
            const outside =
              x < bare || y < bare || x >= page.width - bare || y >= page.height - bare;
            if (outside && r + g + b < 765) beyond += 1;
            darkest = Math.min(darkest, r);
            if (r - b > 100 && r - g > 100) red += 1;
            else if (Math.max(r, g, b) - Math.min(r, g, b) > 12) coloured += 1;
          }
        const where = `${address} page ${index + 1}`;
        expect(beyond, where).toBe(0);
        expect(darkest, where).toBeLessThan(40);
        // The rims of a photo are mixed with the line around it.
        expect(coloured, where).toBeLessThan(2500);
        const here = boxes.filter((box) => box.page === index + 1);
        const label = here.findLast(({ text }) => text === 'PAGE');
        const said = here.map(({ text }) => text).join(' ');
        expect(said, where).toContain(`${index + 1} of ${sizes.length}`);
        expect(label?.left, where).toBeGreaterThan(mm(wide) * 0.6);
        expect(label?.top, where).toBeGreaterThan(mm(high) * 0.85);
      }
    }
    // Two photos of 3:2, a third of the width each: some 5 by 3.4 centimetres of red, at one pixel a point.
    expect(red).toBeGreaterThan(2 * 140 * 90);
  },
  120_000,
);

look('words that stand on each other are found', () => {
  const box = (text: string, left: number, top: number): Box => ({
    ...{ page: 1, text, left, top },
    ...{ right: left + 30, bottom: top + 12 },
  });
  expect(collisions([box('one', 10, 10), box('two', 25, 13)])).toHaveLength(1);
  expect(collisions([box('one', 10, 10), box('two', 41, 10), box('three', 10, 20)])).toEqual([]);
});
