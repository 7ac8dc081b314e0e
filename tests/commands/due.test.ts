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
  ])('refuses %s', (_name, request, words) => {
    const { code, out, told } = ask(request);
    expect([code, out]).toEqual([1, '']);
    expect(told).toMatch(words);
  });

  it('says how it is called', () => {
    expect(runCommand(due, '--help')).toMatchObject({ code: 0, told: '' });
    expect(runCommand(due).code).toBe(2);
    expect(runCommand(due, '/nowhere.json')).toMatchObject({ code: 1, out: '' });
  });
});
