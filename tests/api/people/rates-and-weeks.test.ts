import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import {
  draft,
  forOwner,
  makeTasks,
  quoted,
  revise,
  send,
  tasksOf,
} from '../quoting/quoting-shop.ts';
import { refusal, type SettingsShop, settingsShop, sheetOf } from './settings-shop.ts';

// A Wednesday.
const NOW = new Date('2031-05-07T09:00:00Z');
let now = NOW;
let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => now });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

const labour = (shop: SettingsShop, input: Record<string, unknown>) =>
  shop.say(
    'addLabourRate',
    'AddLabourRateInput',
    { kind: 'mechanic', ...input },
    '... on LabourRate { id rate validFrom }',
  );
const tax = (shop: SettingsShop, input: Record<string, unknown>) =>
  shop.say(
    'addTaxRate',
    'AddTaxRateInput',
    { category: 'parts', code: 'S', ...input },
    '... on TaxRate { id rate taxCode: code }',
  );

describe('a rate', () => {
  it('is a new row from a day on, and a quote that was sent keeps its own', async () => {
    const shop = await settingsShop(api);
    const tasks = tasksOf(await makeTasks(shop, 1));
    const first = quoted(await draft(shop, { ...forOwner(shop), tasks }));
    await send(shop, { quoteId: first.id, revision: 1, channel: 'email' });
    expect(first.newest.lines[0]?.unitPrice).toBe('95');

    expect(await labour(shop, { rate: '110.50', validFrom: '2031-05-08' })).toMatchObject({
      rate: '110.5',
    });
    const today = quoted(await draft(shop, { ...forOwner(shop), tasks }));
    expect(today.newest.lines[0]?.unitPrice).toBe('95');
    now = new Date('2031-05-08T00:30:00Z');
    const next = quoted(await draft(shop, { ...forOwner(shop), tasks }));
    expect(next.newest.lines[0]?.unitPrice).toBe('110.5');
    const { data } = await shop.as<{
      node: { newest: { lines: { unitPrice: string }[]; high: string } };
    }>(
      'front_desk',
      'query($id: ID!) { node(id: $id) { ... on Quote { newest { high lines { unitPrice } } } } }',
      { id: first.id },
    );
    expect(data?.node.newest).toMatchObject({
      high: first.newest.high,
      lines: [{ unitPrice: '95' }],
    });
    const again = quoted(await revise(shop, { quoteId: first.id, fromRevision: 1, tasks }));
    expect(again.newest.lines[0]?.unitPrice).toBe('110.5');
    now = NOW;
  });

  it('typed wrong is put right the same day by another row, which names it', async () => {
    const shop = await settingsShop(api);
    const wrong = await labour(shop, { rate: '950', validFrom: '2031-05-07' });
    const right = { rate: '97', validFrom: '2031-05-07' };
    expect(await labour(shop, right)).toMatchObject({
      code: 'CONFLICT',
      field: 'replacesId',
      message: expect.stringContaining('there is a rate already: 950'),
    });
    const both = await Promise.all(
      [1, 2].map(() => labour(shop, { ...right, replacesId: wrong['id'] })),
    );
    expect(both.map(({ __typename }) => __typename).sort()).toEqual(['LabourRate', 'Refusal']);
    const line = quoted(
      await draft(shop, { ...forOwner(shop), tasks: tasksOf(await makeTasks(shop, 1)) }),
    ).newest.lines[0];
    expect(line?.unitPrice).toBe('97');
    expect((await sheetOf(shop)).labourRates.map(({ rate: { rate } }) => rate)).toEqual([
      '97',
      '950',
      '95',
    ]);
  });

  it('never counts from a day that is over, and is a number that can be kept', async () => {
    const shop = await settingsShop(api);
    expect(await labour(shop, { rate: '99', validFrom: '2031-05-06' })).toMatchObject({
      code: 'AGAINST_RULE',
      field: 'validFrom',
      message: expect.stringContaining('needed is today, 2031-05-07, or later'),
    });
    expect(await labour(shop, { rate: '-1', validFrom: '2031-05-07' })).toMatchObject({
      code: 'BAD_INPUT',
      field: 'rate',
    });
    expect(await labour(shop, { kind: 'painter', rate: '80', validFrom: '2031-05-07' })).toEqual({
      __typename: 'Refusal',
      code: 'BAD_INPUT',
      field: 'kind',
      message:
        'kind is "painter", which the shop has not named: needed is mechanic (for all work without a kind), cost. Name it first.',
    });
    await shop.say(
      'addWorkKind',
      'AddWorkKindInput',
      { name: 'Painter' },
      '... on WorkKind { id }',
    );
    expect(
      await labour(shop, { kind: 'painter', rate: '80', validFrom: '2030-01-01' }),
    ).toMatchObject({ rate: '80' });
    expect(await tax(shop, { rate: '8', code: 'E', validFrom: '2031-05-07' })).toMatchObject({
      code: 'BAD_INPUT',
      field: 'code',
      message: expect.stringContaining('0 % unless it is S, L or M'),
    });
    expect(await tax(shop, { rate: '101', validFrom: '2031-05-07' })).toMatchObject({
      code: 'BAD_INPUT',
      field: 'rate',
    });
    expect(await tax(shop, { rate: '0', code: 'z', validFrom: '2031-05-07' })).toMatchObject({
      taxCode: 'Z',
      rate: '0',
    });
  });
});

describe('a week', () => {
  const set = (
    shop: SettingsShop,
    personId: string | null,
    expectedVersion: number,
    hours: number[][],
  ) =>
    shop.say(
      'setWeek',
      'SetWeekInput',
      {
        personId,
        expectedVersion,
        hours: hours.map(([weekday, fromMinute, toMinute]) => ({ weekday, fromMinute, toMinute })),
      },
      '... on WeekSet { hours { weekday fromMinute toMinute } }',
    );
  const except = (shop: SettingsShop, input: Record<string, unknown>) =>
    shop.say(
      'addException',
      'AddExceptionInput',
      { reason: 'leave', ...input },
      '... on DayException { id reason }',
    );
  const open = [1, 2, 3, 4, 5].map((day) => [day, 450, 1020]);

  it("is the shop's and somebody's, with days that differ, and says who is here", async () => {
    const shop = await settingsShop(api);
    const ruan = shop.person('mechanic');
    expect(await set(shop, null, 1, open)).toMatchObject({
      hours: open.map(([weekday]) => ({ weekday, fromMinute: 450, toMinute: 1020 })),
    });
    expect(
      await set(shop, ruan, 1, [
        [3, 480, 720],
        [3, 780, 960],
        [6, 480, 600],
      ]),
    ).toMatchObject({ __typename: 'WeekSet' });
    expect(
      await except(shop, {
        personId: ruan,
        firstDay: '2031-05-14',
        lastDay: '2031-05-15',
        reason: 'course',
      }),
    ).toMatchObject({ reason: 'course' });
    const closed = await except(shop, {
      firstDay: '2031-05-09',
      lastDay: '2031-05-09',
      reason: 'spring tide',
    });
    expect(
      await except(shop, {
        personId: shop.person('inspector'),
        firstDay: '2031-05-08',
        lastDay: '2031-05-08',
        fromMinute: 600,
        toMinute: 660,
        reason: 'dentist',
      }),
    ).toMatchObject({ reason: 'dentist' });
    const { ahead, exceptions } = await sheetOf(shop);
    const hours = Object.fromEntries(
      ahead.map(({ day, present }) => [
        day.slice(5),
        Object.fromEntries(present.map(({ name, minutes }) => [name.slice(5), minutes / 60])),
      ]),
    );
    expect(hours).toMatchObject({
      '05-07': { mechanic: 7, inspector: 9.5 },
      // Thursday is no day of the mechanic's week; the inspector has no week and the day's own hours.
      '05-08': { inspector: 1 },
      '05-09': {},
      // Saturday the shop is closed, whatever somebody's week says.
      '05-10': {},
      '05-14': { inspector: 9.5 },
    });
    expect(hours['05-08']).not.toHaveProperty('mechanic');
    expect(ahead.find(({ day }) => day === '2031-05-14')?.away).toEqual([
      { name: 'Test mechanic', reason: 'course' },
    ]);
    expect(ahead.find(({ day }) => day === '2031-05-09')?.closed).toBe('spring tide');
    expect(exceptions.map(({ firstDay }) => firstDay)).toEqual([
      '2031-05-08',
      '2031-05-09',
      '2031-05-14',
    ]);

    const takeBack = () =>
      shop.say(
        'removeException',
        'RemoveExceptionInput',
        { exceptionId: closed['id'] },
        '... on ExceptionTakenBack { exceptionId }',
      );
    expect(await takeBack()).toMatchObject({ exceptionId: closed['id'] });
    expect(await takeBack()).toMatchObject({ code: 'NOT_FOUND' });
    const after = await sheetOf(shop);
    expect(
      after.ahead.find(({ day }) => day === '2031-05-09')?.present.map(({ name }) => name),
    ).toEqual(['Test inspector']);
    expect(after.changes.map(({ words, about }) => [about, words])).toEqual(
      expect.arrayContaining([
        [null, 'spring tide, 2031-05-09 to 2031-05-09: taken back'],
        ['Test mechanic', 'course, 2031-05-14 to 2031-05-15'],
        ['Test mechanic', 'the week set anew'],
      ]),
    );
    expect(after.changes.filter(({ words }) => words === 'the week set anew')).toHaveLength(2);
  });

  it('is refused with a sentence where it cannot be', async () => {
    const shop = await settingsShop(api);
    expect(
      (
        await set(shop, null, 1, [
          [2, 480, 720],
          [2, 700, 800],
        ])
      ).message,
    ).toBe('On Tuesday 8:00 to 12:00 and 11:40 to 13:20 overlap.');
    for (const piece of [
      [0, 1, 2],
      [8, 1, 2],
      [1, 600, 600],
      [1, -1, 60],
      [1, 0, 1441],
    ])
      expect(await set(shop, null, 1, [piece])).toMatchObject({ code: 'BAD_INPUT' });
    const both = await Promise.all([set(shop, null, 1, open), set(shop, null, 1, [])]);
    expect(both.map(({ __typename }) => __typename).sort()).toEqual(['Refusal', 'WeekSet']);
    expect(await except(shop, { firstDay: '2031-05-06', lastDay: '2031-05-06' })).toMatchObject({
      code: 'BAD_INPUT',
      field: 'lastDay',
    });
    expect(await except(shop, { firstDay: '2031-05-09', lastDay: '2031-05-08' })).toMatchObject({
      code: 'BAD_INPUT',
    });
    expect(
      await except(shop, { firstDay: '2031-05-09', lastDay: '2031-05-09', fromMinute: 60 }),
    ).toMatchObject({ code: 'BAD_INPUT', field: 'toMinute' });
    const same = await Promise.all(
      [1, 2].map(() => except(shop, { firstDay: '2031-06-01', lastDay: '2031-06-20' })),
    );
    expect(same.map(({ __typename }) => __typename).sort()).toEqual(['DayException', 'Refusal']);
    expect(
      (await except(shop, { firstDay: '2031-06-20', lastDay: '2031-06-21' })).message,
    ).toContain('"leave" from 2031-06-01 to 2031-06-20');
  });
});

describe('whoever is not the manager', () => {
  const attempts: [string, string, (shop: SettingsShop) => Record<string, unknown>][] = [
    [
      'changeShop',
      'ChangeShopInput',
      () => ({
        expectedVersion: 1,
        name: 'X',
        place: 'X',
        timeZone: 'UTC',
        currency: 'USD',
        standing: 'mechanics',
        clearanceMm: 1,
        billingStep: '1',
        billingRounding: 'up',
        timeInServiceBasis: 'Hobbs',
      }),
    ],
    [
      'addPerson',
      'AddPersonInput',
      () => ({ name: 'X', initials: 'X', roles: ['manager'], apprentice: false }),
    ],
    [
      'invitePerson',
      'InvitePersonInput',
      (shop) => ({ personId: shop.person('front_desk'), email: 'x@strand.example' }),
    ],
    [
      'changePerson',
      'ChangePersonInput',
      (shop) => ({
        personId: shop.person('mechanic'),
        expectedVersion: 1,
        name: 'X',
        initials: 'X',
        roles: ['manager'],
        apprentice: false,
      }),
    ],
    [
      'deactivatePerson',
      'PersonAsReadInput',
      (shop) => ({ personId: shop.person('manager'), expectedVersion: 1 }),
    ],
    [
      'takeBackPerson',
      'PersonAsReadInput',
      (shop) => ({ personId: shop.person('manager'), expectedVersion: 1 }),
    ],
    [
      'addCertificate',
      'AddCertificateInput',
      (shop) => ({
        personId: shop.person('mechanic'),
        kind: 'inspection_authorization',
        number: '1',
        validFrom: '2031-01-01',
      }),
    ],
    [
      'endCertificate',
      'EndCertificateInput',
      () => ({ certificateId: globalId('Certificate', randomUUID()), lastDay: '2031-01-01' }),
    ],
    [
      'addLabourRate',
      'AddLabourRateInput',
      () => ({ kind: 'mechanic', rate: '1', validFrom: '2031-05-07' }),
    ],
    [
      'addTaxRate',
      'AddTaxRateInput',
      () => ({ category: 'parts', code: 'S', rate: '1', validFrom: '2031-05-07' }),
    ],
    ['setWeek', 'SetWeekInput', () => ({ expectedVersion: 1, hours: [] })],
    [
      'addException',
      'AddExceptionInput',
      () => ({ firstDay: '2031-05-07', lastDay: '2031-05-07', reason: 'X' }),
    ],
    [
      'removeException',
      'RemoveExceptionInput',
      () => ({ exceptionId: globalId('DayException', randomUUID()) }),
    ],
  ];
  let shop: SettingsShop;
  beforeAll(async () => {
    shop = await settingsShop(api);
  });

  it.each(attempts)(
    'is refused %s, as every other role and as nobody',
    async (mutation, type, input) => {
      for (const role of ['front_desk', 'mechanic', 'inspector'] as const)
        expect(await shop.say(mutation, type, input(shop), '', role), role).toMatchObject({
          code: 'FORBIDDEN',
          message: expect.stringMatching(/^This is for the manager; you are signed in as /),
        });
      expect(await shop.say(mutation, type, input(shop), '', null)).toMatchObject({
        code: 'SIGN_IN_NEEDED',
      });
    },
  );

  it('does not read the sheet either, and nothing was changed', async () => {
    for (const role of ['front_desk', 'mechanic', 'inspector'] as const) {
      const { data } = await shop.as<{ shopSheet: object }>(role, `{ shopSheet { ${refusal} } }`);
      expect(data?.shopSheet).toMatchObject({ code: 'FORBIDDEN' });
    }
    expect((await sheetOf(shop)).changes).toEqual([]);
  });

  it('finds nothing of another shop under its ids', async () => {
    const other = await settingsShop(api);
    expect(
      await shop.say(
        'deactivatePerson',
        'PersonAsReadInput',
        { personId: other.person('mechanic'), expectedVersion: 1 },
        '',
      ),
    ).toMatchObject({ code: 'NOT_FOUND' });
    expect(
      await shop.say(
        'addException',
        'AddExceptionInput',
        {
          personId: other.person('mechanic'),
          firstDay: '2031-05-08',
          lastDay: '2031-05-08',
          reason: 'X',
        },
        '',
      ),
    ).toMatchObject({ code: 'NOT_FOUND' });
    expect((await sheetOf(other)).people.every(({ person: { active } }) => active)).toBe(true);
  });
});
