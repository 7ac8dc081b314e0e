import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { makeShop, makeTask } from '../../support/shop.ts';
import { add, aircraft, dueOf, flown, NOW, record, type Said } from './flown.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

describe('what falls due', () => {
  it('a 100-hour and an annual, by 14 CFR 91.409, with when the hours will be flown', async () => {
    const shop = await flown(api);
    const hundred = await add(shop);
    const annual = await add(shop, { title: 'Annual', rule: 'annual', source: '14 CFR 91.409(a)' });
    // 91.409(b): done 1,234.5, due 1,334.5. 91.409(a): done 10 March 2025, through 31 March 2026.
    await record(shop, hundred.id ?? '', { doneOn: '2025-12-01', tisHundredths: 123_450 });
    await record(shop, annual.id ?? '', { doneOn: '2025-03-10', method: 'Annual by list 4' });
    const [first, second] = await dueOf(shop);
    expect(first).toMatchObject({
      title: 'Annual',
      state: 'due_soon',
      dueOn: '2026-03-31',
      lastMethod: 'Annual by list 4',
    });
    // 34.5 h left; 60 h in 90 days as usual, 30 h in its busiest 30 days, 10 h in its quietest.
    expect(second).toMatchObject({
      ...{ title: '100-hour', state: 'ok', dueAtHundredths: 133_450, remainingHundredths: 3450 },
      ...{ projectedOn: '2026-05-04', projectedFrom: '2026-04-17', projectedTo: '2026-06-25' },
      because: expect.stringMatching(/14 CFR 91\.409\(b\)/),
    });
  });
  it('hours flown past due count against the next 100 (91.409(b))', async () => {
    const shop = await flown(api);
    const { id = '' } = await add(shop);
    await record(shop, id, { doneOn: '2025-08-01', tisHundredths: 110_000 });
    // Due 1,200.0, done 1,204.2: the next at 1,300.0, not 1,304.2.
    await record(shop, id, { doneOn: '2025-10-20', tisHundredths: 120_420 });
    expect((await dueOf(shop))[0]).toMatchObject({ dueAtHundredths: 130_000, state: 'due' });
  });
  it('an annual counts for the 100-hour too (91.409(b)), a 100-hour never for the annual (91.409(a))', async () => {
    const shop = await flown(api);
    const [hundred, annual] = [
      await add(shop),
      await add(shop, { title: 'Annual', rule: 'annual' }),
    ];
    await record(shop, hundred.id ?? '', { doneOn: '2025-08-01', tisHundredths: 120_000 });
    await record(shop, annual.id ?? '', { doneOn: '2025-03-10' });
    const points = async () =>
      Object.fromEntries(
        (await dueOf(shop)).map(({ title, dueOn, dueAtHundredths }) => [
          title,
          dueOn ?? dueAtHundredths,
        ]),
      );
    expect(await points()).toEqual({ '100-hour': 130_000, Annual: '2026-03-31' });
    await record(shop, hundred.id ?? '', { doneOn: '2026-01-13', tisHundredths: 125_000 });
    expect(await points()).toEqual({ '100-hour': 135_000, Annual: '2026-03-31' });
    // Without its hours nothing is counted from an annual.
    await record(shop, annual.id ?? '', { doneOn: '2026-02-01' });
    expect(await points()).toEqual({ '100-hour': 135_000, Annual: '2027-02-28' });
    await record(shop, annual.id ?? '', { doneOn: '2026-02-12', tisHundredths: 128_000 });
    expect(await points()).toEqual({ '100-hour': 138_000, Annual: '2027-02-28' });
    expect((await dueOf(shop)).find(({ title }) => title === '100-hour')?.lastMethod).toBe(
      'By the annual inspection (14 CFR 91.409(b)): Done by the list',
    );
  });
  it('a life-limited part by its own time: fitted with 150 h at 1,240 h, limit 220 h, due at 1,310 h', async () => {
    const shop = await flown(api);
    const componentId = await shop.inside(async (tx) => {
      const { id } = await tx.component.create({
        data: {
          shopId: shop.shopId,
          ...{ kind: 'rotor', title: 'Tail rotor blade', partNumber: 'TB-1', serial: '77' },
          tisHundredths: 15_000,
        },
      });
      await tx.componentFitting.create({
        data: {
          ...{ componentId: id, aircraftId: shop.aircraftId, position: 'tail rotor' },
          ...{ fittedAt: new Date('2025-12-14'), aircraftTisHundredths: 124_000 },
        },
      });
      return id;
    });
    await add(shop, {
      ...{ kind: 'limit', title: 'Tail rotor blade', source: 'Test manual 4', rule: 'life_limit' },
      ...{ limitHundredths: 22_000, componentId: globalId('Component', componentId) },
    });
    expect((await dueOf(shop))[0]).toMatchObject({
      ...{ dueAtHundredths: 131_000, remainingHundredths: 1000, state: 'due_soon' },
    });
  });
  it('says what is missing where nothing can be reckoned, first of all', async () => {
    const shop = await flown(api);
    await add(shop, { title: 'Annual', rule: 'annual' });
    expect((await dueOf(shop))[0]).toMatchObject({
      state: null,
      because: expect.stringMatching(/Annual.*last/),
    });
    const unread = await makeShop(api);
    const { id = '' } = await add(unread, {
      rule: 'recurring',
      everyHundredths: 5000,
      everyMonths: 4,
    });
    expect((await record(unread, id, { tisHundredths: 100 })).message).toMatch(
      /newest reading of .* is none/,
    );
  });
  it('what ended falls due no more', async () => {
    const shop = await flown(api);
    const { id = '' } = await add(shop, {
      ...{ kind: 'directive', title: 'Fuel hose', number: 'QQ-2025-01', source: 'Test authority' },
      ...{ rule: 'once', limitDate: '2026-06-30' },
    });
    expect((await dueOf(shop))[0]).toMatchObject({ state: 'ok', dueOn: '2026-06-30' });
    await record(shop, id, { kind: 'ended', method: 'Hose replaced: terminating action' });
    expect(await dueOf(shop)).toEqual([]);
    expect((await record(shop, id)).code).toBe('CONFLICT');
  });
});

it('what falls due goes onto one quote with one touch, each task once', async () => {
  const shop = await flown(api);
  const [oil, magneto] = [
    await makeTask(shop, { title: 'Oil service' }),
    await makeTask(shop, { title: 'Magneto inspection' }),
  ];
  const items = [
    await add(shop, { title: 'Oil', taskId: globalId('Task', oil.id) }),
    await add(shop, { title: 'Filter', taskId: globalId('Task', oil.id) }),
    await add(shop, { title: 'Magnetos', taskId: globalId('Task', magneto.id) }),
  ].map(({ id }) => id ?? '');
  const quote = async (itemIds: string[]) =>
    (
      await shop.as<{ quoteDue: Said & { latest?: unknown; title?: string } }>(
        'front_desk',
        'mutation($input: QuoteDueInput!) { quoteDue(input: $input) { ... on Quote { id title } ... on Refusal { code message } } }',
        {
          input: {
            aircraftId: aircraft(shop),
            contactId: globalId('Contact', shop.contactId),
            itemIds,
          },
        },
      )
    ).data?.quoteDue;
  expect(await quote(items)).toMatchObject({ title: 'Due: Oil, Filter, Magnetos' });
  const lines = await shop.inside((tx) =>
    tx.quoteLine.findMany({ where: { taskId: { not: null } } }),
  );
  expect(lines.map(({ taskId }) => taskId).sort()).toEqual([oil.id, magneto.id].sort());
  const without = await add(shop, {
    ...{ title: 'Compass', rule: 'calendar_months', everyCalendarMonths: 24 },
  });
  expect(await quote([without.id ?? ''])).toMatchObject({
    ...{ code: 'AGAINST_RULE', message: expect.stringMatching(/“Compass” has no task/) },
  });
  expect(await quote([])).toMatchObject({ code: 'BAD_INPUT' });
});
