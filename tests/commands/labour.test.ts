import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it, test, vi } from 'vitest';
import { run as bare, folderFor } from './labour-command.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const { folder, write } = folderFor();
afterAll(() => fs.rmSync(folder, { recursive: true }));

/** On a busy machine even these take the second after which progress is told. */
function run(...args: string[]) {
  const { code, out, told } = bare(...args);
  return { code, out, told: told.replace(/^ {2}… step .*\n/gm, '') };
}

const rows = Array.from({ length: 24 }, (_, i) => ({
  y: 10 + 3 * (i % 4) + 0.7 * Math.floor(i / 6) * ((i % 6) - 2) + ((i * 7) % 5),
  days: i % 6,
  s: `s${i % 4}`,
  Subject: 308 + Math.floor(i / 6),
  kind: i % 3 === 0 ? 'plain' : 'fancy',
  one: 'same',
}));
const request = {
  response: 'y',
  fixed: ['days', 'kind', 'kind:days'],
  groups: [
    { name: 's', columns: ['s'] },
    { name: 'subject', columns: ['Subject'], slopes: ['days'], correlated: true },
  ],
  method: 'reml',
};
const csv = () =>
  [Object.keys(rows[0]!).join(','), ...rows.map((row) => Object.values(row).join(','))].join('\n');
const small = { response: 'y', groups: [{ name: 's', columns: ['s'] }] };

describe('the answer', () => {
  it('has the shape that an auditor is promised, and nothing else goes to standard output', () => {
    const { code, out, told } = run('regress', write('inline.json', { ...request, rows }));
    expect({ code, told }).toEqual({ code: 0, told: '' });
    const answer = JSON.parse(out);
    const number = expect.any(Number);
    const effect = { estimate: number, se: number };
    const both = { '(Intercept)': number, days: number };
    expect(answer).toEqual({
      fixed: {
        '(Intercept)': effect,
        days: effect,
        kindplain: effect,
        'kindplain:days': effect,
      },
      variances: {
        s: { '(Intercept)': number },
        subject: { ...both, covariance: number },
      },
      residual: number,
      criterion: number,
      effects: {
        s: Object.fromEntries(['s0', 's1', 's2', 's3'].map((s) => [s, { '(Intercept)': number }])),
        subject: { 308: both, 309: both, 310: both, 311: both },
      },
      rows: 24,
      ms: number,
    });
  });

  it('is the same from a CSV file beside the request, whose numbers are text, and from text inline', () => {
    write('deep/data/rows.csv', csv());
    const texts = rows.map((row) =>
      Object.fromEntries(Object.entries(row).map(([name, value]) => [name, String(value)])),
    );
    const answers = [
      write('a.json', { ...request, rows }),
      write('deep/b.json', { ...request, rows: 'data/rows.csv' }),
      write('deep/c.json', { ...request, rows: path.join(folder, 'deep/data/rows.csv') }),
      write('d.json', { ...request, rows: texts }),
    ].map((file) => ({ ...JSON.parse(run('regress', file).out), ms: 0 }));
    for (const answer of answers) expect(answer).toEqual(answers[0]);
  });

  it('is looked up from where the command was called', () => {
    write('here.json', { ...small, rows });
    vi.stubEnv('INIT_CWD', folder);
    expect(run('regress', 'here.json').code).toBe(0);
    vi.unstubAllEnvs();
  });

  it('without correlation has no covariance, with several columns a combination of each', () => {
    const groups = [
      { name: 'subject', columns: ['Subject'], slopes: ['days'], correlated: false },
      { name: 'both', columns: ['s', 'kind'] },
    ];
    const file = write('e.json', { response: 'y', groups, rows, intercept: false, method: 'ml' });
    const answer = JSON.parse(run('regress', file).out);
    expect(Object.keys(answer.variances.subject)).toEqual(['(Intercept)', 'days']);
    expect(Object.keys(answer.effects.both).sort()).toHaveLength(8);
    expect(answer.effects.both['s0:plain']).toBeDefined();
    expect(answer.fixed).toEqual({});
  });

  it('comes from the command itself: exit code, one line of JSON', () => {
    const call = (...args: string[]) =>
      spawnSync(
        process.execPath,
        ['--import', 'tsx', path.join(root, 'scripts/labour.ts'), ...args],
        { encoding: 'utf8', cwd: root, env: { ...process.env, INIT_CWD: folder } },
      );
    write('f.json', { ...small, rows });
    const { status, stdout, stderr } = call('regress', 'f.json');
    expect({ status, stderr, lines: stdout.trim().split('\n').length }).toEqual({
      status: 0,
      stderr: '',
      lines: 1,
    });
    const none = call('regress', 'none.json');
    expect({ status: none.status, stdout: none.stdout }).toEqual({ status: 1, stdout: '' });
    expect(none.stderr).toContain('none.json: there is no such file.');
  }, 60_000);
});

const withRow = (index: number, change: object) =>
  rows.map((row, i) => (i === index ? { ...row, ...change } : row));

describe('refused with exit code 1 and nothing on standard output', () => {
  const cases: [string, unknown, string][] = [
    ['not JSON', '{"rows": ', 'is not JSON'],
    ['a list', [], '"rows" must be the path of a CSV file or a list of objects.'],
    ['no rows', small, '"rows" must be the path of a CSV file or a list of objects.'],
    ['rows of no rows', { ...small, rows: [] }, 'There are no rows; at least two are needed.'],
    ['no such data', { ...small, rows: 'gone.csv' }, 'gone.csv: there is no such file.'],
    [
      'an unknown key',
      { ...small, rows, responce: 'y' },
      'The request has no "responce"; it may have rows, response',
    ],
    [
      'an unknown key of a group',
      { ...small, rows, groups: [{ name: 's', column: 's' }] },
      'Group 1 has no "column"; it may have name, columns',
    ],
    ['no response', { rows }, '"response" must name a column; got undefined.'],
    [
      'another method',
      { ...small, rows, method: 'bayes' },
      '"method" must be "reml" or "ml"; got "bayes".',
    ],
    [
      'a missing column',
      { ...small, rows, response: 'hours' },
      'Row 1 has no column hours; the first row has y, days',
    ],
    [
      'a missing column of a group',
      { ...small, rows, groups: [{ name: 'm', columns: ['mechanic'] }] },
      'Row 1 has no column mechanic',
    ],
    [
      'a blank cell',
      { ...small, rows: withRow(2, { y: '' }) },
      'Row 3, column y: a value is needed; got none.',
    ],
    [
      'nothing in a group',
      { ...small, rows: withRow(2, { s: null }) },
      'Row 3, column s: a value is needed; got none.',
    ],
    [
      'text where a number belongs',
      { ...small, rows: withRow(2, { y: 'long' }) },
      'row 3, column y: a number is needed; got "long".',
    ],
    [
      'text in a slope',
      { ...small, rows, groups: [{ name: 's', columns: ['s'], slopes: ['kind'] }] },
      'Slope of group s: row 1, column kind: a number is needed; got "plain".',
    ],
    [
      'one row',
      { ...small, rows: rows.slice(0, 1), groups: [] },
      '1 rows cannot tell 1 fixed effects and a residual apart; at least 2 are needed.',
    ],
    [
      'a constant response',
      { ...small, rows: rows.map((row) => ({ ...row, y: 2 })) },
      'All 24 values of the response are 2: nothing varies',
    ],
    [
      'as many levels as rows',
      { ...small, rows: rows.map((row, i) => ({ ...row, s: `s${i}` })) },
      'Group s has as many levels as there are rows (24)',
    ],
    [
      'one level',
      { ...small, rows, groups: [{ name: 'o', columns: ['one'] }] },
      'Group o has one level in 24 rows; its variance needs at least two levels',
    ],
    [
      'a factor of one level',
      { ...small, rows, fixed: ['one'] },
      'Column one is "same" in every row; a factor needs two levels.',
    ],
    [
      'collinear columns',
      {
        ...small,
        rows: rows.map((row) => ({ ...row, double: 2 * row.days + 1 })),
        fixed: ['days', 'double'],
      },
      'The fixed term double is a combination of the terms before it',
    ],
    [
      'levels that differ in nothing but the response',
      { ...small, rows: rows.map((row) => ({ ...row, y: Number(row.s.slice(1)) })) },
      'without a rest worth the name',
    ],
    [
      'NaN',
      { ...small, rows: withRow(2, { y: 'NaN' }) },
      'column y: a number is needed; got "NaN".',
    ],
    [
      'Infinity',
      { ...small, rows: withRow(2, { y: 'Infinity' }) },
      'row 3: a finite number is needed; got Infinity.',
    ],
    [
      '1e400',
      JSON.stringify({ ...small, rows: withRow(2, { y: 'big' }) }).replace('"big"', '1e400'),
      'row 3: a finite number is needed; got Infinity.',
    ],
    ['1e300', { ...small, rows: withRow(2, { y: 1e300 }) }, 'give it in another unit'],
    [
      'two groups with one name',
      {
        ...small,
        rows,
        groups: [
          { name: 's', columns: ['s'] },
          { name: 's', columns: ['Subject'] },
        ],
      },
      'Two groups are called s; names must differ.',
    ],
    [
      'a group of no columns',
      { ...small, rows, groups: [{ name: 's', columns: [] }] },
      'Group s needs at least one column.',
    ],
    ['a list in a cell', { ...small, rows: withRow(2, { s: ['a'] }) }, 'Row 3, column s'],
    ['true in a cell', { ...small, rows: withRow(2, { y: true }) }, 'column y'],
    ['a fixed term twice', { ...small, rows, fixed: ['days', 'days'] }, 'days'],
    ['an unfinished interaction', { ...small, rows, fixed: ['days:'] }, '"days:"'],
  ];

  it.each(cases)('%s', (name, content, sentence) => {
    const { code, out, told } = run('regress', write(`${name}.json`, content));
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(told).toContain(sentence);
    expect(told.trim().split('\n')).toHaveLength(1);
    expect(told).not.toMatch(/undefined is|not a function|at .*\.ts:/);
  });

  it.each([
    ['', 'The file is empty'],
    ['y,s', 'There are no rows'],
    ['y,s,y\n1,a,2', 'The header names column y twice.'],
    ['y,\n1,a', 'Column 2 of the header has no name.'],
    ['y,s\n1,a\n2', 'Row 2 has 1 values; the header has 2 columns.'],
    ['y,s\n1,"a\n2,b', 'Not CSV'],
  ])('the CSV %j', (text, sentence) => {
    write('bad.csv', text);
    const { code, out, told } = run('regress', write('csv.json', { ...small, rows: 'bad.csv' }));
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(told).toContain(sentence);
  });

  it('a folder', () => {
    const { code, told } = run('regress', folder);
    expect(code).toBe(1);
    expect(told).toContain('it is a folder');
  });
});

test.each([
  [[], 'What is to be done?'],
  [['guess', 'a.json'], '"guess" is not one of its commands.'],
  [['regress'], 'regress: It needs REQUEST.json; got nothing.'],
  [['regress', 'a.json', 'b.json'], 'regress: It needs REQUEST.json; got a.json b.json.'],
])('%j is no use of the command: exit code 2, usage on standard error', (args, sentence) => {
  const { code, out, told } = run(...args);
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(told).toContain(sentence);
  expect(told).toContain('regress REQUEST.json');
});

test('--help tells what it does on standard output', () => {
  const { code, out, told } = run('--help');
  expect({ code, told }).toEqual({ code: 0, told: '' });
  expect(out).toContain('regress REQUEST.json');
});
