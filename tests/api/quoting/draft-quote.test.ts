import { randomUUID } from 'node:crypto';
import {
  billedHours,
  documentTotals,
  formatAmount,
  lineNet,
  minor,
  secondsFrom,
} from '@fairlead/money';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop } from '../../support/shop.ts';
import {
  draft,
  forOwner,
  gid,
  makeFinding,
  makePackage,
  makePart,
  makeTasks,
  quoted,
  refused,
  tasksOf,
} from './quoting-shop.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi();
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

/** Hours at 95.00, the rate of a test shop, in cents: half a cent away from zero. */
const priced = (hours: number) =>
  lineNet({ quantity: hours.toFixed(6), unitPrice: '95' }, 'USD').toString();
/** The same, billed in tenths, a tenth begun counts whole. */
const atTenths = (hours: number) =>
  lineNet(
    {
      quantity: billedHours(secondsFrom(hours), { step: '0.1', rounding: 'up' }),
      unitPrice: '95',
    },
    'USD',
  ).toString();
const rows = (shop: Awaited<ReturnType<typeof makeShop>>) => shop.inside((tx) => tx.quote.count());

describe('a quote by time and materials', () => {
  it('has a line for each task and part, priced at the rate of the day, and the sum of none of their P90s', async () => {
    const shop = await makeShop(api);
    const tasks = await makeTasks(shop, 6);
    const part = await makePart(shop);
    const quote = quoted(
      await draft(shop, {
        ...forOwner(shop),
        tasks: tasksOf(tasks),
        parts: [{ partId: gid('Part', part.id), quantity: '2.5' }],
      }),
    );
    expect(quote).toMatchObject({ number: 1, title: 'Task 1 and 5 more', state: 'draft' });
    const { newest } = quote;
    expect(newest.lines.map(({ position, title }) => [position, title])).toEqual([
      ...tasks.map(({ title }, index) => [index + 1, title]),
      [7, 'Test gasket'],
    ]);

    const estimated = await shop.as<{
      estimateTask: { p10: number; p50: number; p80: number; p90: number };
    }>(
      'front_desk',
      'query ($taskId: ID!, $aircraftId: ID!) { estimateTask(taskId: $taskId, aircraftId: $aircraftId) { ... on Estimate { p10 p50 p80 p90 } } }',
      { taskId: gid('Task', tasks[0]?.id ?? ''), aircraftId: gid('Aircraft', shop.aircraftId) },
    );
    const hours = estimated.data?.estimateTask;
    if (!hours) throw new Error('no estimate');
    const [first] = newest.lines;
    expect(first).toMatchObject({
      pricing: 'time_and_materials',
      category: 'labour',
      quantity: '1',
      unitPrice: '95',
      jobs: 0,
      low: atTenths(hours.p10),
      likely: atTenths(hours.p50),
      p80: atTenths(hours.p80),
      high: atTenths(hours.p90),
    });
    expect(first?.hours?.p50).toBeCloseTo(hours.p50, 6);
    expect(first?.because.map(({ kind }) => kind)).toContain('standard');
    expect(first?.modelVersion).toBeTruthy();

    // 2.5 × 12.345 = 30.8625 → 30.86, and firm.
    expect(newest.lines[6]).toMatchObject({
      pricing: 'time_and_materials',
      category: 'parts',
      part: { id: gid('Part', part.id) },
      unitPrice: '12.345',
      quantity: '2.5',
      low: '3086',
      likely: '3086',
      high: '3086',
      hours: null,
      because: [],
    });

    const sumOf = (key: 'low' | 'high') =>
      newest.lines.reduce((sum, line) => sum + BigInt(line[key]), 0n);
    expect(BigInt(newest.high)).toBeLessThan(sumOf('high'));
    expect(BigInt(newest.low)).toBeGreaterThan(sumOf('low'));
    // Each of the six is rounded up by less than a tenth of an hour.
    for (const [amount, hours] of [
      [newest.high, newest.hours.p90],
      [newest.likely, newest.hours.p50],
    ] as const) {
      expect(BigInt(amount)).toBeGreaterThan(BigInt(priced(hours)) + 3086n);
      expect(BigInt(amount)).toBeLessThan(BigInt(priced(hours + 0.6)) + 3086n);
    }
    expect(newest.hours.mean).toBeCloseTo(
      newest.lines.reduce((sum, line) => sum + (line.hours?.mean ?? 0), 0),
      4,
    );
    // Labour at 0 %, parts at 7 %: EN 16931-1, BR-CO-17, as the pure package has it.
    const totals = documentTotals({
      currency: 'USD',
      lines: [
        {
          id: 'labour',
          quantity: '1',
          unitPrice: formatAmount(minor(BigInt(newest.likely) - 3086n), 'USD'),
          taxCategory: 'S',
          taxRate: '0',
        },
        { id: 'part', quantity: '2.5', unitPrice: '12.345', taxCategory: 'S', taxRate: '7' },
      ],
    });
    expect(newest.tax).toBe(totals.taxTotal.toString());
    expect(newest.tax).toBe('216');
  });

  it('gives the same figures for the same tasks every time', async () => {
    const shop = await makeShop(api);
    const input = { ...forOwner(shop), tasks: tasksOf(await makeTasks(shop, 5)) };
    const [one, two] = [quoted(await draft(shop, input)), quoted(await draft(shop, input))];
    expect(two.number).toBe(one.number + 1);
    expect(two.newest.high).toBe(one.newest.high);
    expect(two.newest.hours).toEqual(one.newest.hours);
  });

  it('holds for 30 days unless said otherwise, and keeps its terms and title', async () => {
    const shop = await makeShop(api);
    const input = { ...forOwner(shop), tasks: tasksOf(await makeTasks(shop, 1)) };
    const today = new Date().toISOString().slice(0, 10);
    const days = (quote: ReturnType<typeof quoted>) =>
      (Date.parse(quote.newest.expiresOn) - Date.parse(today)) / 86_400_000;
    expect(days(quoted(await draft(shop, input)))).toBe(30);
    const written = quoted(
      await draft(shop, {
        ...input,
        expiresOn: today,
        terms: ' Fuel drained before work. ',
        title: 'Noé’s “hundred” <b>✈</b>',
      }),
    );
    expect(days(written)).toBe(0);
    expect(written).toMatchObject({
      title: 'Noé’s “hundred” <b>✈</b>',
      newest: { terms: 'Fuel drained before work.' },
    });
  });
});

describe('a quote from a package', () => {
  it('at a fixed price bills the price once and keeps the hours of every task at 0', async () => {
    const shop = await makeShop(api);
    const tasks = await makeTasks(shop, 4);
    const [extra] = await makeTasks(shop, 1, { title: 'Besides' });
    const pack = await makePackage(shop, tasks, { priceMinor: 268_000n });
    const quote = quoted(
      await draft(shop, {
        ...forOwner(shop),
        packageId: gid('Package', pack.id),
        tasks: tasksOf(extra ? [extra] : []),
      }),
    );
    const [flat, ...rest] = quote.newest.lines;
    expect(quote.title).toBe('Test inspection');
    expect(flat).toMatchObject({
      pricing: 'fixed',
      title: 'Test inspection',
      category: 'labour',
      task: null,
      part: null,
      quantity: '1',
      unitPrice: '2680',
      low: '268000',
      likely: '268000',
      p80: '268000',
      high: '268000',
      hours: null,
    });
    expect(
      rest
        .slice(0, 4)
        .map(({ pricing, low, high, task, hours }) => [
          pricing,
          low,
          high,
          task?.id,
          hours !== null,
        ]),
    ).toEqual(tasks.map(({ id }) => ['fixed', '0', '0', gid('Task', id), true]));
    const besides = rest[4];
    expect(besides).toMatchObject({ title: 'Besides', pricing: 'time_and_materials' });
    // Of one task by time the simulated sum is that task, to the sampling error of 20,000 draws.
    expect(Number(quote.newest.high) - 268_000).toBeGreaterThan(Number(besides?.high) * 0.95);
    expect(Number(quote.newest.high) - 268_000).toBeLessThan(Number(besides?.high) * 1.05);
    expect(quote.newest.hours.p50).toBeGreaterThan((besides?.hours?.p50 ?? 0) * 4);
  });

  it('without a price is sold by time, and is refused for another kind of aircraft or model', async () => {
    const shop = await makeShop(api);
    const tasks = await makeTasks(shop, 2);
    const open = await makePackage(shop, tasks);
    const quote = quoted(
      await draft(shop, { ...forOwner(shop), packageId: gid('Package', open.id) }),
    );
    expect(quote.newest.lines.map(({ pricing }) => pricing)).toEqual([
      'time_and_materials',
      'time_and_materials',
    ]);

    const twin = await makePackage(shop, tasks, { modelKind: 'airplane_twin' });
    expect(
      refused(await draft(shop, { ...forOwner(shop), packageId: gid('Package', twin.id) })),
    ).toMatchObject({
      code: 'AGAINST_RULE',
      field: 'packageId',
      message: expect.stringContaining('twin-engine airplanes'),
    });
    const other = await shop.inside((tx) =>
      tx.aircraftModel.create({
        data: {
          shopId: shop.shopId,
          maker: 'Testmaker',
          name: 'T-4',
          kind: 'helicopter_four_seat',
          lengthMm: 1,
          spanMm: 1,
          heightMm: 1,
          parkedLengthMm: 1,
          parkedWidthMm: 1,
        },
      }),
    );
    const forOther = await makePackage(shop, tasks, { modelId: other.id });
    expect(
      refused(await draft(shop, { ...forOwner(shop), packageId: gid('Package', forOther.id) })),
    ).toMatchObject({ code: 'AGAINST_RULE', message: expect.stringContaining('T-4') });
    expect(
      refused(
        await draft(shop, {
          ...forOwner(shop),
          packageId: gid('Package', open.id),
          tasks: tasksOf(tasks.slice(0, 1)),
        }),
      ).message,
    ).toContain('is in "Test inspection" already');
  });
});

describe('a draft is refused, and nothing is kept,', () => {
  it('for bad amounts, dates, texts and doubles', async () => {
    const shop = await makeShop(api);
    const tasks = tasksOf(await makeTasks(shop, 1));
    const partId = gid('Part', (await makePart(shop)).id);
    const bad: [Record<string, unknown>, string, string][] = [
      [{ tasks: [] }, 'tasks', 'no work'],
      [{ tasks: [...tasks, ...tasks] }, 'tasks', 'twice'],
      [
        { tasks: Array.from({ length: 151 }, () => ({ taskId: gid('Task', randomUUID()) })) },
        'tasks',
        'at most 150',
      ],
      [{ tasks, parts: [{ partId, quantity: '0' }] }, 'parts', 'more than 0'],
      [{ tasks, parts: [{ partId, quantity: '-1' }] }, 'parts', 'more than 0'],
      [{ tasks, parts: [{ partId, quantity: '10001' }] }, 'parts', '10000'],
      [{ tasks, parts: [{ partId, quantity: '1.0005' }] }, 'parts', '3 decimals'],
      [
        {
          tasks,
          parts: [
            { partId, quantity: '1' },
            { partId, quantity: '2' },
          ],
        },
        'parts',
        'twice',
      ],
      [{ tasks, expiresOn: '2020-01-01' }, 'expiresOn', '2020-01-01'],
      [{ tasks, expiresOn: '2199-01-01' }, 'expiresOn', '2199-01-01'],
      [{ tasks, title: 'x'.repeat(201) }, 'title', '201'],
      [{ tasks, terms: 'x'.repeat(4001) }, 'terms', '4001'],
      [{ tasks, clientEventId: 'again' }, 'clientEventId', 'UUID'],
    ];
    for (const [input, field, words] of bad) {
      const {
        code,
        message,
        field: named,
      } = refused(await draft(shop, { ...forOwner(shop), ...input }));
      expect([code, named]).toEqual(['BAD_INPUT', field]);
      expect(message).toContain(words);
    }
    expect(await rows(shop)).toBe(0);
  });

  it('for ids of another type, of nothing, and of another shop', async () => {
    const [shop, other] = [await makeShop(api), await makeShop(api)];
    const own = { ...forOwner(shop), tasks: tasksOf(await makeTasks(shop, 1)) };
    const strangers = await makeTasks(other, 1);
    const pack = await makePackage(other, strangers);
    const { finding } = await makeFinding(other);
    const cases = [
      { ...own, aircraftId: gid('Aircraft', other.aircraftId) },
      { ...own, contactId: gid('Contact', other.contactId) },
      { ...own, tasks: tasksOf(strangers) },
      { ...own, packageId: gid('Package', pack.id) },
      { ...own, findingId: gid('Finding', finding.id) },
      { ...own, parts: [{ partId: gid('Part', (await makePart(other)).id), quantity: '1' }] },
      { ...own, tasks: [{ taskId: gid('Task', randomUUID()) }] },
    ];
    for (const input of cases) expect(refused(await draft(shop, input)).code).toBe('NOT_FOUND');
    expect(refused(await draft(shop, { ...own, aircraftId: own.contactId }))).toMatchObject({
      code: 'BAD_INPUT',
      field: 'aircraftId',
    });
    expect(refused(await draft(shop, { ...own, aircraftId: 'nonsense' })).code).toBe('BAD_INPUT');
    expect(await rows(shop)).toBe(0);
    expect(await rows(other)).toBe(0);
  });

  it('for somebody else than the desk, for a stranger to the aircraft, for a package and a finding at once', async () => {
    const shop = await makeShop(api);
    const own = { ...forOwner(shop), tasks: tasksOf(await makeTasks(shop, 1)) };
    expect(refused(await draft(shop, own, 'mechanic')).code).toBe('FORBIDDEN');
    expect(refused(await draft(shop, own, null)).code).toBe('SIGN_IN_NEEDED');
    expect(quoted(await draft(shop, own, 'manager')).state).toBe('draft');
    const stranger = await shop.inside((tx) =>
      tx.contact.create({ data: { shopId: shop.shopId, name: 'Passer-by' } }),
    );
    expect(
      refused(await draft(shop, { ...own, contactId: gid('Contact', stranger.id) })),
    ).toMatchObject({
      code: 'AGAINST_RULE',
      field: 'contactId',
      message: expect.stringContaining('Passer-by'),
    });
    const pack = await makePackage(shop, await makeTasks(shop, 1));
    const { finding } = await makeFinding(shop);
    expect(
      refused(
        await draft(shop, {
          ...own,
          packageId: gid('Package', pack.id),
          findingId: gid('Finding', finding.id),
        }),
      ).message,
    ).toContain('not for both');
  });

  it('while the shop has no rate or no tax for the day, naming the day and the category', async () => {
    const bare = await makeShop(api, { currency: 'XXX' });
    expect(
      refused(await draft(bare, { ...forOwner(bare), tasks: tasksOf(await makeTasks(bare, 1)) }))
        .message,
    ).toContain('"XXX"');

    const early = await startApi({ now: () => new Date('2024-06-01T12:00:00Z') });
    const shop = await makeShop(early);
    await shop.inside((tx) =>
      tx.aircraftContact.create({
        data: {
          aircraftId: shop.aircraftId,
          contactId: shop.contactId,
          capacity: 'payer',
          since: new Date('2020-01-01'),
        },
      }),
    );
    const own = { ...forOwner(shop), tasks: tasksOf(await makeTasks(shop, 1)) };
    expect(refused(await draft(shop, own))).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringMatching(/labour rate .*2024-06-01/),
    });
    await shop.inside((tx) =>
      tx.labourRate.create({
        data: {
          shopId: shop.shopId,
          kind: 'mechanic',
          rate: '80',
          validFrom: new Date('2024-01-01'),
        },
      }),
    );
    expect(refused(await draft(shop, own))).toMatchObject({
      code: 'AGAINST_RULE',
      message: expect.stringMatching(/labour for 2024-06-01/),
    });
    await shop.inside((tx) =>
      tx.taxRate.create({
        data: {
          shopId: shop.shopId,
          category: 'labour',
          code: 'E',
          rate: '5',
          validFrom: new Date('2024-01-01'),
        },
      }),
    );
    expect(refused(await draft(shop, own)).message).toContain('category "E"');
    await shop.inside((tx) =>
      tx.taxRate.create({
        data: {
          shopId: shop.shopId,
          category: 'labour',
          code: 'S',
          rate: '5',
          validFrom: new Date('2024-02-01'),
        },
      }),
    );
    expect(quoted(await draft(shop, own)).newest.lines[0]?.unitPrice).toBe('80');
    expect(early.faults).toEqual([]);
    await early.stop();
  });

  it('where nothing says how long a task takes', async () => {
    const shop = await makeShop(api);
    const tasks = await makeTasks(shop, 1, { standardHours: null, title: 'Never done' });
    expect(refused(await draft(shop, { ...forOwner(shop), tasks: tasksOf(tasks) }))).toMatchObject({
      code: 'NOT_ENOUGH_HISTORY',
      message: expect.stringContaining('"Never done"'),
    });
  });
});

describe('a draft sent twice', () => {
  it('is one quote, also when both arrive together', async () => {
    const shop = await makeShop(api);
    const input = {
      ...forOwner(shop),
      tasks: tasksOf(await makeTasks(shop, 1)),
      clientEventId: randomUUID(),
    };
    const answers = (
      await Promise.all([draft(shop, input), draft(shop, input), draft(shop, input)])
    ).map(quoted);
    expect(new Set(answers.map(({ id }) => id)).size).toBe(1);
    expect(quoted(await draft(shop, input)).id).toBe(answers[0]?.id);
    expect(await rows(shop)).toBe(1);
    const second = await shop.inside((tx) =>
      tx.aircraft.create({
        data: { shopId: shop.shopId, modelId: shop.modelId, registration: 'QQ-2ND', serial: '2' },
      }),
    );
    expect(
      refused(await draft(shop, { ...input, aircraftId: gid('Aircraft', second.id) })).code,
    ).toBe('CONFLICT');
  });
});

describe('a forecast', () => {
  it('says what a draft would say, keeps nothing, and needs somebody signed in', async () => {
    const shop = await makeShop(api);
    const pack = await makePackage(shop, await makeTasks(shop, 3), { priceMinor: 99_900n });
    const part = await makePart(shop);
    const lines = {
      packageId: gid('Package', pack.id),
      tasks: tasksOf(await makeTasks(shop, 2)),
      parts: [{ partId: gid('Part', part.id), quantity: '3' }],
    };
    const { aircraftId, contactId } = forOwner(shop);
    const query = `query ($input: QuoteForecastInput!) { quoteForecast(input: $input) { __typename ... on Refusal { code }
      ... on QuoteForecast { currency low likely p80 high tax hours { p10 p50 mean p80 p90 } lines { position pricing title taskId partId quantity unitPrice low likely p80 high hours { p90 } because { sentence } } } } }`;
    const said = await shop.as<{
      quoteForecast: Record<string, unknown> & {
        lines: { title: string; high: string; taskId: string | null }[];
      };
    }>('front_desk', query, { input: { aircraftId, ...lines } });
    const forecast = said.data?.quoteForecast;
    expect(said.errors).toBeUndefined();
    expect(await rows(shop)).toBe(0);
    const { newest } = quoted(await draft(shop, { aircraftId, contactId, ...lines }));
    for (const key of ['currency', 'low', 'likely', 'p80', 'high', 'tax', 'hours'] as const)
      expect(forecast?.[key]).toEqual(newest[key]);
    expect(forecast?.lines.map(({ title, high, taskId }) => [title, high, taskId])).toEqual(
      newest.lines.map(({ title, high, task }) => [title, high, task?.id ?? null]),
    );
    const nobody = await shop.as<{ quoteForecast: { code: string } }>(null, query, {
      input: { aircraftId, ...lines },
    });
    expect(nobody.data?.quoteForecast.code).toBe('SIGN_IN_NEEDED');
  });
});
