import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../../support/api.ts';
import { decide, enter, fitted, reached, statusOf } from './directive-shop.ts';
import { dueOf, flown, NOW, record } from './flown.ts';

let api: TestApi;
beforeAll(async () => {
  api = await startApi({ now: () => NOW });
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

describe('a directive', () => {
  it('is found to reach an aircraft, with the reason; nothing falls due before a person decides', async () => {
    const shop = await flown(api);
    const { id = '' } = await enter(shop);
    expect(await reached(shop)).toEqual([
      {
        directive: {
          number: '2026-01-05',
          terms: 'First within 50.00 h after 2026-02-12; then every 100.00 h',
        },
        componentId: null,
        ...{ found: 'applies', decision: null },
        because: 'Applies: the Testmaker T-2, serial 0001 lies within 0001 to 0100',
      },
    ]);
    expect(await dueOf(shop)).toEqual([]);
    expect(await decide(shop, id)).toEqual({ id });
    expect((await reached(shop))[0]?.decision).toEqual({
      ...{ binds: true, reason: 'Serial number compared with the plate', by: 'Test inspector' },
      found: 'Applies: the Testmaker T-2, serial 0001 lies within 0001 to 0100',
    });
    // Read 1,280.0 h on the day it took effect: by 1,330.0 h.
    expect(await dueOf(shop)).toMatchObject([
      { title: 'Fuel hose', dueAtHundredths: 133_000, remainingHundredths: 3000 },
    ]);
  });

  it('recurs from its last compliance, and ends with its terminating action; the sheet keeps all of it', async () => {
    const shop = await flown(api);
    const { id = '' } = await enter(shop, { terminating: 'Hose P-2 fitted, paragraph (i)' });
    await decide(shop, id);
    const itemId = (await dueOf(shop))[0]?.itemId ?? '';
    await record(shop, itemId, {
      ...{ doneOn: '2026-03-10', tisHundredths: 129_000, method: 'Inspected, paragraph (g)' },
    });
    // 14 CFR 91.417(a)(2)(v): method, number and revision date, and the time of the next action.
    const [row] = (await statusOf(shop))[4]?.rows ?? [];
    expect(row).toEqual({
      what: 'Fuel hose, No. 2026-01-05, revision A of 2026-01-20',
      status: 'current',
      last: '2026-03-10, 1290.00 h, 10.00 h since, Inspected, paragraph (g), by Test inspector',
      next: '1390.00 h, 90.00 h left, about 2026-07-27',
    });
    await record(shop, itemId, {
      ...{ kind: 'terminated', doneOn: '2026-03-12', tisHundredths: 129_500 },
      method: 'Hose P-2 fitted, paragraph (i)',
    });
    expect(await dueOf(shop)).toEqual([]);
    expect((await statusOf(shop))[4]?.rows).toEqual([
      {
        what: 'Fuel hose, No. 2026-01-05, revision A of 2026-01-20',
        status: 'complied with, terminating action',
        last: '2026-03-12, 1295.00 h, 5.00 h since, Hose P-2 fitted, paragraph (i), by Test inspector',
        next: 'none',
      },
    ]);
  });

  it('is decided not to apply, by name and with a reason; what had fallen due ends', async () => {
    const shop = await flown(api);
    const { id = '' } = await enter(shop);
    await decide(shop, id);
    expect(
      await decide(shop, id, { binds: false, reason: 'Hose P-2 fitted at the factory' }),
    ).toEqual({ id });
    expect(await dueOf(shop)).toEqual([]);
    const rows = (await statusOf(shop))[4]?.rows ?? [];
    expect(rows.map(({ status }) => status)).toEqual([
      'not asked here any more',
      'does not apply: Hose P-2 fitted at the factory',
    ]);
    expect(rows[1]?.last).toBe('2026-03-14, decided by Test inspector');
    // Decided anew, it falls due again.
    await decide(shop, id, { reason: 'The hose was changed back' });
    expect(await dueOf(shop)).toHaveLength(1);
  });

  it('about a part is found by what is fitted, and counts the part’s own hours', async () => {
    const shop = await flown(api);
    const componentId = await fitted(shop);
    const reaches = [{ partNumber: 'e-4', serials: '800 to 900' }];
    const { id = '' } = await enter(shop, { reaches });
    expect(await reached(shop)).toMatchObject([
      {
        ...{ componentId, found: 'applies' },
        because: 'Applies: Engine, part e-4, serial 881 lies within 800 to 900'.replace(
          'e-4',
          'E-4',
        ),
      },
    ]);
    expect((await decide(shop, id)).message).toMatch(/is about parts: name the part/);
    expect(await decide(shop, id, { componentId })).toEqual({ id });
    // Its own 200.0 + (1,280.0 − 1,000.0) = 480.0 h then; by 530.0 h, which is 1,330.0 h of the aircraft.
    expect(await dueOf(shop)).toMatchObject([
      { dueAtHundredths: 133_000, remainingHundredths: 3000 },
    ]);
    const item = await shop.inside((tx) => tx.dueItem.findFirstOrThrow());
    expect(item.limitHundredths).toBe(53_000);
  });

  it('that is superseded ends with the decision on what takes its place', async () => {
    const shop = await flown(api);
    const first = await enter(shop);
    await decide(shop, first.id ?? '');
    const second = await enter(shop, {
      ...{ number: '2026-03-01', supersedesId: first.id, rule: 'once', everyHundredths: null },
    });
    expect((await decide(shop, first.id ?? '', { binds: false })).message).toMatch(
      /superseded by 2026-03-01: decide on that one/,
    );
    await decide(shop, second.id ?? '');
    expect((await dueOf(shop)).map(({ title }) => title)).toEqual(['Fuel hose']);
    const rows = (await statusOf(shop))[4]?.rows ?? [];
    expect(rows.map(({ what, last }) => [what, last])).toEqual([
      ['Fuel hose, No. 2026-03-01, revision A of 2026-01-20', 'not entered here'],
      [
        'Fuel hose, No. 2026-01-05, revision A of 2026-01-20',
        '2026-03-14, Superseded by 2026-03-01, revision A, by Test inspector',
      ],
    ]);
  });

  it('that nobody decided on stands on the sheet as not decided, also where it cannot be told', async () => {
    const shop = await flown(api);
    await enter(shop, {
      reaches: [{ modelId: globalId('AircraftModel', shop.modelId), serials: 'T-100 to T-200' }],
    });
    expect(await reached(shop)).toMatchObject([{ found: 'unclear' }]);
    expect((await statusOf(shop))[4]?.rows[0]).toMatchObject({
      status: expect.stringMatching(
        /^not decided\. Cannot be told: .*serial 0001 is of another form/,
      ),
      next: 'a person has to decide',
    });
    // One that lies outside is not shown; a person may still decide on it.
    const { id = '' } = await enter(shop, {
      ...{ number: '2026-01-06', reaches: [{ partNumber: 'Z-9' }] },
    });
    expect(await reached(shop)).toHaveLength(1);
    expect(await decide(shop, id, { binds: false, reason: 'No such pump fitted' })).toEqual({ id });
    expect(await reached(shop)).toHaveLength(2);
  });
});

it('a bulletin is chosen or not, by the manager too, and has its place beside the sheet’s items', async () => {
  const shop = await flown(api);
  const { id = '' } = await enter(shop, {
    kind: 'bulletin',
    authority: 'Testmaker',
    number: 'SB-7',
  });
  expect(await decide(shop, id, { reason: 'The owner wants it' }, 'manager')).toEqual({ id });
  expect((await dueOf(shop))[0]?.title).toBe('Fuel hose');
  await decide(shop, id, { binds: false, reason: 'The owner leaves it' }, 'manager');
  expect((await statusOf(shop))[6]).toMatchObject({
    paragraph: 'Beside 14 CFR 91.417(a)(2)',
    rows: [{ status: 'not asked here any more' }, { status: 'not chosen: The owner leaves it' }],
  });
});

describe('is refused, and nothing is kept', () => {
  it.each<[string, Record<string, unknown>, RegExp]>([
    [
      'a range that runs backwards',
      { reaches: [{ partNumber: 'P', serials: '9 to 1' }] },
      /runs backwards/,
    ],
    [
      'what may be a range',
      { reaches: [{ partNumber: 'P', serials: '10-20' }] },
      /one serial number or a range/,
    ],
    ['a line of nothing', { reaches: [{ serials: '1' }] }, /neither a model nor a part number/],
    ['no line', { reaches: [] }, /0 lines of what it applies to/],
    [
      'a last day before it takes effect',
      { rule: 'once', everyHundredths: null, limitDate: '2026-02-11' },
      /limits contradict each other: it takes effect on 2026-02-12, after 2026-02-11/,
    ],
    ['a revision of tomorrow', { revisedOn: '2026-03-15' }, /of 2026-03-15: today is 2026-03-14/],
    ['29 February of no leap year', { revisedOn: '2026-02-29' }, /2026-02-29/],
    ['a repeat without how often', { everyHundredths: null }, /needs how often/],
    [
      'an end of no repeat',
      { rule: 'once', everyHundredths: null, terminating: 'Hose P-2 fitted' },
      /not repeated/,
    ],
    ['whichever is last of one', { whicheverLast: true }, /needs two terms/],
    [
      'a life that is no limit of a maker',
      { rule: 'life_limit', everyHundredths: null },
      /life_limit was given for a directive/,
    ],
    ['an inspection', { kind: 'inspection' }, /needed is directive, bulletin or limit/],
    ['no days', { withinDays: 0 }, /withinDays is 0/],
    [
      'a model of elsewhere',
      { reaches: [{ modelId: globalId('AircraftModel', '00000000-0000-7000-8000-000000000000') }] },
      /no such model/,
    ],
  ])('%s', async (_, over, words) => {
    const shop = await flown(api);
    expect((await enter(shop, over)).message).toMatch(words);
    expect(await shop.inside((tx) => tx.directive.count())).toBe(0);
  });

  it('the same number and revision twice, unless it mends the first', async () => {
    const shop = await flown(api);
    const first = await enter(shop);
    expect(await enter(shop)).toMatchObject({ code: 'CONFLICT' });
    expect((await enter(shop, { supersedesId: first.id })).id).toBeDefined();
    expect((await enter(shop, { number: 'X', supersedesId: first.id })).message).toMatch(
      /superseded by 2026-01-05 already/,
    );
  });

  it('a decision by who holds no certificate, without a reason, or on a part that is not fitted', async () => {
    const shop = await flown(api);
    const componentId = await fitted(shop);
    const { id = '' } = await enter(shop);
    expect(await decide(shop, id, {}, 'mechanic')).toMatchObject({ code: 'FORBIDDEN' });
    expect(await decide(shop, id, {}, 'manager')).toMatchObject({
      message: expect.stringMatching(/holds a mechanic’s certificate/),
    });
    expect(await decide(shop, id, { reason: ' ' })).toMatchObject({ code: 'BAD_INPUT' });
    expect((await decide(shop, id, { componentId })).message).toMatch(
      /not fitted .* or 2026-01-05 does not name it/,
    );
    expect(await shop.inside((tx) => tx.directiveDecision.count())).toBe(0);
  });

  it('hours after a day on which no meter was read, unless a person says by when', async () => {
    const shop = await flown(api);
    const { id = '' } = await enter(shop, { effectiveOn: '2025-01-01', revisedOn: '2025-01-01' });
    expect(await decide(shop, id)).toMatchObject({
      message: expect.stringMatching(/within 50\.00 h after 2025-01-01.*give the time in service/),
    });
    expect(await shop.inside((tx) => tx.dueItem.count())).toBe(0);
    expect(await decide(shop, id, { limitHundredths: 131_000 })).toEqual({ id });
    expect((await dueOf(shop))[0]?.dueAtHundredths).toBe(131_000);
  });
});
