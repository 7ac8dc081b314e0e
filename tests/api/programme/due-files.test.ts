import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeTask } from '../../support/shop.ts';
import { fitted } from './directive-shop.ts';
import { send } from './files.ts';
import { aircraft, dueOf, flown, NOW } from './flown.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const FILE = `title,kind,number,source,rule,every_hours,every_months,limit_hours,part_number,part_serial,task,last_on,last_at_hours,last_method
100-hour,inspection,,14 CFR 91.409(b),hundred_hour,,,,,,oil,2025-12-01,1234.5,By the list
Fuel hose,directive,2026-01-05,"Authority, paragraph (g)",recurring,50,4,,,,,2026-02-12,1280,Inspected
Engine overhaul,overhaul,,Test manual 5,recurring,2000,,,E-4,881,,2024-01-01,1000.00,New
Life,limit,,Test manual 4,life_limit,,,2200,E-4,881,,,,
`;

describe('due items as a file (RFC 4180), read by another library', () => {
  it('come in whole, and go out with what is reckoned', async () => {
    const shop = await flown(api);
    await fitted(shop);
    await makeTask(shop, { key: 'oil' });
    expect(await send(api, shop, 'items', FILE)).toEqual({
      status: 201,
      said: { added: 4, refused: [] },
    });
    expect(
      (await dueOf(shop)).map(({ title, dueAtHundredths }) => [title, dueAtHundredths]),
    ).toEqual(
      expect.arrayContaining([
        ['100-hour', 133_450],
        ['Fuel hose', 133_000],
        // New with 200.0 h of its own at 1,000.0 h: 2,000.0 h on, and its life of 2,200.0 h, both end at 3,000.0 h.
        ['Engine overhaul', 300_000],
        ['Life', 300_000],
      ]),
    );
    const response = await fetch(`${api.origin}/due/items/${aircraft(shop)}.csv`, {
      headers: { cookie: await shop.cookie('front_desk') },
    });
    expect(response.headers.get('content-type')).toMatch(/^text\/csv; charset=utf-8/);
    const text = await response.text();
    const rows = parse(text, { columns: true }) as Record<string, string>[];
    expect(rows.find(({ title }) => title === 'Fuel hose')).toMatchObject({
      ...{ kind: 'directive', number: '2026-01-05', source: 'Authority, paragraph (g)' },
      ...{
        every_hours: '50.00',
        every_months: '4',
        last_on: '2026-02-12',
        last_at_hours: '1280.00',
      },
      ...{ state: 'ok', due_on: '2026-06-12', due_at_hours: '1330.00', left_hours: '30.00' },
    });
    // What went out comes in again on another aircraft, but for what is not fitted there.
    const other = await flown(api);
    await makeTask(other, { key: 'oil' });
    const again = await send(api, other, 'items', text);
    expect(again).toMatchObject({
      status: 422,
      said: { added: 0, refused: [{ column: 'part_serial' }, { column: 'part_serial' }] },
    });
    await fitted(other);
    expect(await send(api, other, 'items', text)).toMatchObject({ status: 201 });
    expect((await dueOf(other)).map(({ dueAtHundredths }) => dueAtHundredths).sort()).toEqual(
      (await dueOf(shop)).map(({ dueAtHundredths }) => dueAtHundredths).sort(),
    );
  });

  it('go out as a workbook (ISO/IEC 29500), which is a zip', async () => {
    const shop = await flown(api);
    await send(api, shop, 'items', 'title,kind,source,rule\nAnnual,inspection,91.409(a),annual\n');
    const response = await fetch(`${api.origin}/due/items/${aircraft(shop)}.xlsx`, {
      headers: { cookie: await shop.cookie('manager') },
    });
    expect(response.headers.get('content-disposition')).toMatch(/due-QQ-\w+\.xlsx/);
    const bytes = Buffer.from(await response.arrayBuffer());
    expect(bytes.subarray(0, 4).toString('latin1')).toBe('PK\u0003\u0004');
  });

  it('are refused by line, with what was given and what is needed; nothing is half-done', async () => {
    const shop = await flown(api);
    const { status, said } = await send(
      api,
      shop,
      'items',
      [
        'title,kind,number,source,rule,every_hours,every_months,limit_date,whichever,part_number,part_serial,task,last_on,last_at_hours',
        'Good,inspection,,91.409(a),annual,,,,,,,,2026-01-01,',
        'Bad kind,wish,,Test,annual,,,,,,,,,',
        'Bad hours,inspection,,Test,recurring,fifty,,,,,,,,',
        'Bad day,limit,,Test,life_limit,,,2026-02-29,,,,,,',
        'No number,directive,,Test,annual,,,,,,,,,',
        'Contradiction,inspection,,Test,annual,50,,,,,,,,',
        'Last of one,inspection,,Test,recurring,50,,,last,,,,,',
        'No part,inspection,,Test,annual,,,,,Z-1,9,,,',
        'No task,inspection,,Test,annual,,,,,,,paint,,',
        'Tomorrow,inspection,,Test,annual,,,,,,,,2026-03-15,',
        'Too many hours,inspection,,Test,hundred_hour,,,,,,,,2026-03-01,1300.01',
        'No hours,inspection,,Test,hundred_hour,,,,,,,,2026-03-01,',
      ].join('\n'),
    );
    expect(status).toBe(422);
    const { refused, added } = said as {
      added: number;
      refused: { line: number; column: string; value: string; problem: string; needed: string }[];
    };
    expect(added).toBe(0);
    expect(refused.map(({ line, column }) => [line, column])).toEqual([
      [3, 'kind'],
      [4, 'every_hours'],
      [5, 'limit_date'],
      [6, 'number'],
      [7, 'every_hours'],
      [8, 'whichever'],
      [9, 'part_serial'],
      [10, 'task'],
      [11, 'last_on'],
      [12, 'last_at_hours'],
      [13, 'last_at_hours'],
    ]);
    expect(refused[2]).toEqual({
      ...{ line: 5, column: 'limit_date', value: '2026-02-29', problem: 'cannot be read' },
      needed: 'a day that exists, such as 2026-03-14',
    });
    expect(await shop.inside((tx) => tx.dueItem.count())).toBe(0);
  });

  it('that are there already are not added twice; a mechanic adds none', async () => {
    const shop = await flown(api);
    const file = 'title,kind,source,rule\nAnnual,inspection,91.409(a),annual\n';
    await send(api, shop, 'items', file);
    expect(await send(api, shop, 'items', file)).toMatchObject({
      said: { refused: [{ line: 2, problem: 'falls due on it already' }] },
    });
    expect(await send(api, shop, 'items', file, 'mechanic')).toMatchObject({
      status: 403,
    });
    expect(await shop.inside((tx) => tx.dueItem.count())).toBe(1);
  });
});
