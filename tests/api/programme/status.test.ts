import { execFileSync, spawnSync } from 'node:child_process';
import { globalId } from '@fairlead/api/ids';
import { PDFDocument } from 'pdf-lib';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';

const poppler = spawnSync('pdftotext', ['-v']).error === undefined;
let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => new Date('2026-03-14T09:00:00Z') });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** An aircraft at 1,300.0 h with an engine that was fitted with 200.0 h at 1,000.0 h, and something of each item. */
async function aircraftWithStatus(): Promise<TestShop> {
  const shop = await makeShop(api);
  const { aircraftId, shopId } = shop;
  await shop.inside(async (tx) => {
    await tx.meterReading.create({
      data: {
        ...{ aircraftId, meter: 'tachometer', readingHundredths: 130_000, tisHundredths: 130_000 },
        readAt: new Date('2026-03-14T08:00:00Z'),
      },
    });
    const engine = await tx.component.create({
      data: {
        ...{ shopId, kind: 'engine', title: 'Engine', partNumber: 'E-4', serial: '881' },
        tisHundredths: 20_000,
      },
    });
    await tx.componentFitting.create({
      data: {
        ...{ componentId: engine.id, aircraftId, position: 'engine' },
        ...{ fittedAt: new Date('2024-01-01'), aircraftTisHundredths: 100_000 },
      },
    });
    const addedById = shop.people.inspector.id;
    const common = { aircraftId, addedById, source: 'Test' };
    const [annual, directive] = await Promise.all([
      tx.dueItem.create({
        data: { ...common, kind: 'inspection', title: 'Annual', rule: 'annual' },
      }),
      tx.dueItem.create({
        data: {
          ...{
            ...common,
            kind: 'directive',
            title: 'Fuel hose',
            number: 'QQ-2025-01',
            revision: 'A',
          },
          ...{ rule: 'recurring', everyHundredths: 5000 },
        },
      }),
      tx.dueItem.create({
        data: {
          ...{ ...common, kind: 'overhaul', title: 'Engine overhaul', componentId: engine.id },
          ...{ rule: 'life_limit', limitHundredths: 200_000 },
        },
      }),
    ]);
    const by = { byId: addedById, kind: 'complied' as const };
    await tx.dueEvent.createMany({
      data: [
        { ...by, itemId: annual.id, doneOn: new Date('2025-02-10'), method: 'By list 4' },
        {
          ...{ ...by, itemId: directive.id, doneOn: new Date('2026-02-01') },
          ...{ tisHundredths: 128_000, method: 'Hose inspected, paragraph (g)' },
        },
      ],
    });
  });
  return shop;
}

it('has each item of 14 CFR 91.417(a)(2), and says what is not kept here', async () => {
  const shop = await aircraftWithStatus();
  const { data, errors } = await shop.as<{
    node: { statusSheet: { paragraph: string; note: string; rows: Record<string, string>[] }[] };
  }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Aircraft { statusSheet { paragraph title note rows { what status last next } } } } }',
    { id: globalId('Aircraft', shop.aircraftId) },
  );
  expect(errors).toBeUndefined();
  const sections = data?.node.statusSheet ?? [];
  expect(sections.map(({ paragraph }) => paragraph)).toEqual(
    ['i', 'ii', 'iii', 'iv', 'v', 'vi'].map((item) => `14 CFR 91.417(a)(2)(${item})`),
  );
  const [times, parts, overhauls, inspections, directives, forms] = sections;
  // (i): 1,300.0 h; the engine 200.0 + (1,300.0 − 1,000.0) = 500.0 h.
  expect(times?.rows.map(({ status }) => status)).toEqual(['1300.00 h', '500.00 h']);
  expect(parts).toMatchObject({ rows: [], note: expect.stringMatching(/^None is entered here/) });
  // (iii): new at 800.0 h of the aircraft, so due at 2,800.0 h.
  expect(overhauls?.rows).toEqual([
    {
      what: 'Engine overhaul, Engine, serial 881',
      ...{ status: 'current', last: 'not entered here', next: '2800.00 h, 1500.00 h left' },
    },
  ]);
  // (iv): done 10 February 2025, good through 28 February 2026 (91.409(a)).
  expect(inspections?.rows).toEqual([
    { what: 'Annual', status: 'overdue', last: '2025-02-10, By list 4', next: '2026-02-28' },
  ]);
  // (v): number and revision, method, when next.
  expect(directives?.rows).toEqual([
    {
      what: 'Fuel hose, No. QQ-2025-01, revision A',
      ...{
        status: 'current',
        last: '2026-02-01, 1280.00 h, 20.00 h since, Hose inspected, paragraph (g), by Test inspector',
      },
      next: '1330.00 h, 30.00 h left',
    },
  ]);
  expect(forms?.note).toMatch(/not kept here/);
});

it('prints on one page, on A4 and Letter, with its cautions', async () => {
  const shop = await aircraftWithStatus();
  for (const paper of ['a4', 'letter']) {
    const response = await fetch(
      `${api.origin}/paper/status/${globalId('Aircraft', shop.aircraftId)}.pdf?paper=${paper}`,
      { headers: { cookie: await shop.cookie('inspector') } },
    );
    expect(response.status).toBe(200);
    const bytes = new Uint8Array(await response.arrayBuffer());
    expect((await PDFDocument.load(bytes)).getPageCount()).toBe(1);
    if (!poppler) continue;
    const text = execFileSync('pdftotext', ['-layout', '-', '-'], {
      input: bytes,
      encoding: 'utf8',
    });
    for (const words of [
      /91\.417\(a\)\(2\)\(i\)/,
      /91\.417\(a\)\(2\)\(vi\)/,
      /QQ-2025-01/,
      /overdue/,
      /stays responsible/,
    ])
      expect(text).toMatch(words);
  }
});

it('stays on one page of A4 with eight inspections, each with when it was done and when it is due', async () => {
  const shop = await aircraftWithStatus();
  await shop.inside(async (tx) => {
    for (let each = 1; each <= 7; each += 1) {
      const item = await tx.dueItem.create({
        data: {
          ...{
            shopId: shop.shopId,
            aircraftId: shop.aircraftId,
            addedById: shop.people.inspector.id,
          },
          ...{ kind: 'inspection', title: `Inspection of the instruments, group ${each}` },
          ...{ source: 'Invented', rule: 'recurring', everyHundredths: 50_000, everyMonths: 24 },
        },
      });
      await tx.dueEvent.create({
        data: {
          ...{ itemId: item.id, kind: 'complied', byId: shop.people.inspector.id },
          ...{ doneOn: new Date('2025-09-10'), tisHundredths: 121_000 },
          method: 'Looked at and tested by the maker’s list',
        },
      });
    }
  });
  const response = await fetch(
    `${api.origin}/paper/status/${globalId('Aircraft', shop.aircraftId)}.pdf`,
    { headers: { cookie: await shop.cookie('inspector') } },
  );
  const paper = await PDFDocument.load(new Uint8Array(await response.arrayBuffer()));
  expect(paper.getPageCount()).toBe(1);
});
