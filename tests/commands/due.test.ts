import fs from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { due } from '../../scripts/due.ts';
import { folderFor } from './labour-command.ts';
import { runCommand } from './run-command.ts';

const { folder, write } = folderFor();
afterAll(() => fs.rmSync(folder, { recursive: true }));

const ask = (request: unknown) => runCommand(due, write('request.json', request));
const at = { date: '2026-03-02', tis: 1336, cycles: 4100 };

describe('due', () => {
  it('answers each item with hours and days as they were given', () => {
    const { code, out, told } = ask({
      at,
      items: [
        { id: '100-hour', rule: 'hundred_hour', last: { tis: 1234.5 }, enRoute: true },
        { id: 'fan belt', rule: 'life_limit', limit: { cycles: 4105 } },
        {
          id: 'oil',
          rule: 'recurring',
          every: { hours: 50, months: 4 },
          last: { tis: '1290.25', date: '2025-11-30' },
        },
      ],
      soon: { hours: 5, days: 7 },
    });
    expect([code, told]).toEqual([0, '']);
    expect(JSON.parse(out)).toEqual({
      items: [
        {
          id: '100-hour',
          due: { tis: 1334.5 },
          limitTis: 1344.5,
          state: 'within_allowance',
          remaining: { hours: -1.5 },
          because: expect.stringMatching(/14 CFR 91\.409\(b\)/),
        },
        {
          id: 'fan belt',
          due: { cycles: 4105 },
          state: 'ok',
          remaining: { cycles: 5 },
          because: expect.stringMatching(/14 CFR 43\.10/),
        },
        {
          id: 'oil',
          due: { date: '2026-03-30', tis: 1340.25 },
          state: 'due_soon',
          remaining: { hours: 4.25, days: 28 },
          because: expect.stringMatching(/whichever comes first/),
        },
      ],
    });
  });

  it.each<[string, unknown, RegExp]>([
    ['no place to stand', { items: [] }, /at is missing; an object is needed/],
    ['no items', { at }, /items is missing; a list is needed/],
    [
      'a field that is none',
      { at, items: [], when: 1 },
      /has a field "when"; it may have at, items, soon/,
    ],
    [
      'a misspelt field',
      { at, items: [{ id: 'a', rule: 'once', limits: {} }] },
      /items\[0\] has a field "limits"/,
    ],
    [
      'a rule that is none',
      { at, items: [{ id: 'a', rule: 'weekly' }] },
      /rule is "weekly"; one of hundred_hour/,
    ],
    [
      '29 February of a common year',
      { at: { ...at, date: '2025-02-29' }, items: [] },
      /"2025-02-29" as at\.date/,
    ],
    ['hours below 0', { at: { ...at, tis: -1 }, items: [] }, /at\.tis is -1; hours from 0/],
    ['a third decimal', { at: { ...at, tis: 1.001 }, items: [] }, /at most two decimals/],
    [
      'half a month',
      { at, items: [{ id: 'a', rule: 'recurring', every: { months: 0.5 } }] },
      /every\.months is 0\.5; a whole number from 1/,
    ],
    [
      'no interval at all',
      { at, items: [{ id: 'a', rule: 'recurring', every: { hours: 0 } }] },
      /more than 0 hours/,
    ],
    [
      'two of one id',
      { at, items: [1, 2].map(() => ({ id: 'a', rule: 'once', limit: { hours: 5 } })) },
      /Two items have the id "a"/,
    ],
    [
      'a compliance in the future',
      { at, items: [{ id: 'a', rule: 'annual', last: { date: '2026-03-03' } }] },
      /cannot lie in the future/,
    ],
    [
      'a last time that says nothing, which would count as done',
      { at, items: [{ id: 'a', rule: 'once', limit: { hours: 5 }, last: {} }] },
      /items\[0\]\.last is \{\}, which does not tell when it was done; date, tis, cycles/,
    ],
    [
      'when it had been due, and not when it was done',
      { at, items: [{ id: 'a', rule: 'once', limit: { hours: 5 }, last: { dueAtTis: 4 } }] },
      /does not tell when it was done/,
    ],
    [
      'a repeat that was done past its limit',
      {
        at,
        items: [
          {
            ...{ id: 'a', rule: 'recurring', every: { hours: 100 } },
            ...{ limit: { hours: 1200 }, last: { tis: 1234.5 } },
          },
        ],
      },
      /limit and items\[0\]\.last contradict each other: last\.tis is 1234\.5 h, past the limit of 1200 h/,
    ],
    [
      'a part that was fitted new after its last day',
      {
        at,
        items: [
          {
            ...{ id: 'a', rule: 'life_limit' },
            ...{ limit: { date: '2025-01-01' }, last: { date: '2025-06-01' } },
          },
        ],
      },
      /contradict each other: last\.date is 2025-06-01, past the limit of 2025-01-01/,
    ],
    [
      'more hours than any aircraft flies',
      { at: { ...at, tis: 9_999_999 }, items: [] },
      /at\.tis is 9999999; at most 1000000 hours/,
    ],
    [
      'hours that add up to more',
      {
        at: { ...at, tis: 1_000_000 },
        items: [{ id: 'a', rule: 'hundred_hour', last: { tis: 999_950 } }],
      },
      /Item "a" would fall due at 1000060\.00 h; at most 1000000 h/,
    ],
    [
      'months that lead past the calendar',
      {
        at,
        items: [
          { id: 'a', rule: 'recurring', every: { months: 999_999 }, last: { date: '2026-03-02' } },
        ],
      },
      /Item "a" would fall due after 9999-12-31/,
    ],
    [
      'a number that is none',
      { at: { ...at, tis: 'NaN' }, items: [] },
      /at\.tis is "NaN"; hours from 0/,
    ],
    [
      'a day with a time',
      { at: { ...at, date: '2026-03-02T10:00Z' }, items: [] },
      /as at\.date: give a day that exists/,
    ],
    [
      'a blank id',
      { at, items: [{ id: ' ', rule: 'annual', last: { date: '2026-03-01' } }] },
      /items\[0\]\.id is " "; text is needed/,
    ],
    [
      'cycles of an aircraft that has fewer',
      { at, items: [{ id: 'a', rule: 'recurring', every: { cycles: 5 }, last: { cycles: 4101 } }] },
      /it was done at 4101 cycles, and the aircraft stands at 4100 cycles/,
    ],
    [
      'landings that nobody counted',
      { at, items: [{ id: 'a', rule: 'life_limit', limit: { landings: 5 } }] },
      /Item "a" counts landings: give the aircraft's as at\.landings/,
    ],
    ['a list for an item', { at, items: [[]] }, /items\[0\] is \[\]; an object is needed/],
    ['soon below 0', { at, items: [], soon: { hours: 10, days: -1 } }, /soon\.days is -1/],
  ])('refuses %s', (_name, request, words) => {
    const { code, out, told } = ask(request);
    expect([code, out]).toEqual([1, '']);
    expect(told).toMatch(words);
  });

  it('takes what is blank for what is left out, and an empty list', () => {
    const item = { id: 'a', rule: 'annual', last: { date: '2026-03-02', tis: null } };
    const { code, out } = ask({
      ...{ at, soon: null },
      items: [{ ...item, whichever: null, enRoute: null, every: null, limit: null }],
    });
    expect([code, JSON.parse(out).items[0].due]).toEqual([0, { date: '2027-03-31' }]);
    expect(ask({ at, items: [] })).toMatchObject({ code: 0, out: '{"items":[]}\n' });
  });

  it('counts landings and starts as it counts cycles, and says that late is late', () => {
    const { out } = ask({
      at: { ...at, landings: 5200, starts: 2400 },
      items: [
        { id: 'gear', rule: 'recurring', every: { landings: 500 }, last: { landings: 4700 } },
        { id: 'starter', rule: 'once', limit: { starts: 2399 } },
        { id: 'done', rule: 'once', last: { tis: 1300 } },
        {
          ...{ id: 'hose', rule: 'recurring', every: { hours: 100 } },
          last: { tis: 1238.7, dueAtTis: 1234.5 },
        },
      ],
    });
    expect(JSON.parse(out).items).toMatchObject([
      { due: { landings: 5200 }, state: 'due', remaining: { landings: 0 } },
      { due: { starts: 2399 }, state: 'overdue', remaining: { starts: -1 } },
      { due: {}, state: 'ok', remaining: {} },
      // A directive's interval runs from when it was done (14 CFR part 39 has no sentence on an excess, 91.409(b) has).
      { due: { tis: 1338.7 }, because: expect.stringMatching(/4\.20 h late: counted from when/) },
    ]);
  });

  it('says how it is called', () => {
    expect(runCommand(due, '--help')).toMatchObject({ code: 0, told: '' });
    expect(runCommand(due).code).toBe(2);
    expect(runCommand(due, '/nowhere.json')).toMatchObject({ code: 1, out: '' });
  });
});
