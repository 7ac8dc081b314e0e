import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  HISTORY_COLUMNS,
  hours,
  parseHistory,
  rowKey,
  rowKeys,
  writeRefused,
} from '../src/index.ts';

const today = '2025-06-30';
const header = HISTORY_COLUMNS.join(',');
const full =
  '2024-02-29,Replace collector,7810,2.0,Tern 2,QQ-117,A:0.6;B:0.4,3.25,0,95,feel,bent,arm,25,1,4';
const parse = (...lines: string[]) => parseHistory([header, ...lines].join('\n'), { today });
/** A row with one cell changed. */
const withCell = (column: (typeof HISTORY_COLUMNS)[number], value: string) => {
  const cells = full.split(',');
  cells[HISTORY_COLUMNS.indexOf(column)] = value;
  return cells.join(',');
};

describe('parse a history', () => {
  it('reads every column', () => {
    expect(parse(full)).toMatchObject({ refused: [], refusedRows: [] });
    expect(parse(full).rows).toEqual([
      {
        line: 2,
        completedOn: '2024-02-29',
        task: 'Replace collector',
        jasc: '7810',
        standardHours: 2,
        model: 'Tern 2',
        registration: 'QQ-117',
        mechanics: [
          { name: 'A', share: 0.6 },
          { name: 'B', share: 0.4 },
        ],
        hours: 3.25,
        censored: false,
        found: {
          clearanceMm: 95,
          sight: 'feel',
          posture: 'bent',
          reach: 'arm',
          swingDeg: 25,
          held: true,
          lockedFasteners: 4,
        },
      },
    ]);
  });

  it('takes blank as not recorded, not as zero', () => {
    expect(parse('2024-01-02,Wash,,,,,,1.5,,,,,,,,').rows).toEqual([
      {
        line: 2,
        completedOn: '2024-01-02',
        task: 'Wash',
        mechanics: [],
        hours: 1.5,
        censored: false,
        found: {},
      },
    ]);
  });

  it('reads a byte-order mark, CRLF, lone CR, columns in any order and blank lines', () => {
    const plain = parse(full, full).rows;
    for (const ending of ['\r\n', '\r', '\n']) {
      const text = `\uFEFF${[header, full, full, ''].join(ending)}`;
      expect(parseHistory(text, { today }).rows).toEqual(plain);
    }
    const backwards = [header, full].map((line) => line.split(',').reverse().join(',')).join('\n');
    expect(parseHistory(backwards, { today }).rows).toEqual(parse(full).rows);
    expect(parse('', full, '', ',,,,,,,,,,,,,,,', full).rows.map(({ line }) => line)).toEqual([
      3, 6,
    ]);
  });

  it('counts physical lines, through quoted line breaks and blank lines, to the line of the cell', () => {
    const broken = withCell('task', '"Replace\r\ncollector\r\nand gasket"').replace('3.25', '-1');
    const { rows, refused } = parse('', broken, '', withCell('hours', '0'), full);
    expect(refused.map(({ line, column, value }) => [line, column, value])).toEqual([
      [5, 'hours', '-1'],
      [7, 'hours', '0'],
    ]);
    expect(rows[0]?.line).toBe(8);
  });

  it('shares work equally where no shares are given', () => {
    expect(parse(withCell('mechanic', 'A; B;C')).rows[0]?.mechanics).toEqual(
      ['A', 'B', 'C'].map((name) => ({ name, share: 1 / 3 })),
    );
    expect(parse(withCell('mechanic', 'A')).rows[0]?.mechanics).toEqual([{ name: 'A', share: 1 }]);
    expect(parse(withCell('mechanic', 'A:0.3333333;B:0.3333333;C:0.3333333')).refused).toEqual([]);
  });

  const bad: [(typeof HISTORY_COLUMNS)[number], string][] = [
    ...[
      '',
      '2023-02-29',
      '1900-02-29',
      '2024-13-01',
      '2024-00-10',
      '2024-04-31',
      '29.02.2024',
      '2024-2-9',
      '20240229',
      '2025-07-01',
      '2024-02-29T10:00',
    ].map((value) => ['completed_on', value]),
    ...['', 'x'.repeat(201), 'a\u0000b', 'caf\uFFFD'].map((value) => ['task', value]),
    ...['781', '78100', '78-1', 'ABCD'].map((value) => ['jasc', value]),
    ...['', '0', '-2', 'NaN', 'Infinity', '1e999', '1000.01', '0x10', '2h', '"1,5"', '1e-999'].map(
      (value) => ['hours', value],
    ),
    ...['0', '-1', 'two'].map((value) => ['standard_hours', value]),
    ...[
      'A:0.6;B:0.3',
      'A:0.6;B',
      'A;A',
      'A;',
      ':1',
      'A:0;B:1',
      'A:-1;B:2',
      'A:x',
      'A:1.5',
      'A:0.50001;B:0.5',
    ].map((value) => ['mechanic', value]),
    ...['2', 'no'].map((value) => ['censored', value]),
    ...['-1', '10001', 'wide'].map((value) => ['clearance_mm', value]),
    ['sight', 'Direct'],
    ['posture', 'sitting'],
    ['reach', 'hand'],
    ...['-1', '361', 'free'].map((value) => ['swing_deg', value]),
    ['held', 'yes'],
    ...['-1', '1.5', '1001', 'many'].map((value) => ['locked_fasteners', value]),
  ] as [(typeof HISTORY_COLUMNS)[number], string][];
  it.each(bad)('refuses %s "%s" by line, column, value and remedy', (column, value) => {
    const { rows, refused } = parse(full, withCell(column, value));
    expect(rows).toHaveLength(1);
    expect(refused).toHaveLength(1);
    expect(refused[0]).toMatchObject({ line: 3, column, value: value.replaceAll('"', '') });
    expect(refused[0]?.problem).toMatch(/\w/);
    expect(refused[0]?.remedy).toMatch(/\w.*\.$/);
  });

  it('accepts the edges', () => {
    const edges = [
      withCell('completed_on', today),
      withCell('completed_on', '2000-02-29'),
      withCell('hours', '1000'),
      withCell('hours', '1e-3'),
      withCell('clearance_mm', '0'),
      withCell('swing_deg', '360'),
      withCell('locked_fasteners', '0'),
    ];
    expect(parse(...edges).refused).toEqual([]);
  });

  it('reports every bad cell of a row, and a row with the wrong number of cells', () => {
    const twice = withCell('hours', '0').replace('7810', '78');
    const { refused, refusedRows, rows } = parse(twice, 'a,b', full);
    expect(refused.map(({ line, column }) => [line, column])).toEqual([
      [2, 'jasc'],
      [2, 'hours'],
      [3, ''],
    ]);
    expect(refused[2]?.problem).toBe('has 2 cells where the header has 16');
    expect(refusedRows).toHaveLength(2);
    expect(rows).toHaveLength(1);
  });

  it('reports missing, unknown and repeated columns, and then reads no row', () => {
    const wrong = header.replace('hours,censored', 'hrs,censored').replace('sight', 'reach');
    const { rows, refused } = parseHistory(`${wrong}\n${full}`, { today });
    expect(rows).toEqual([]);
    expect(refused.map(({ line, column, problem }) => [line, column, problem])).toEqual([
      [1, 'hrs', 'is not a known column'],
      [1, 'reach', 'is a column that comes twice'],
      [1, 'hours', 'is a missing column'],
      [1, 'sight', 'is a missing column'],
    ]);
  });

  it.each([
    [';', 'semicolons'],
    ['\t', 'tabulators'],
  ])('says in one sentence that columns are kept apart by %j', (separator, name) => {
    const text = [header, full].map((line) => line.replaceAll(',', separator)).join('\r\n');
    const { rows, refused, refusedRows } = parseHistory(`\uFEFF${text}`, { today });
    expect([rows, refusedRows]).toEqual([[], []]);
    expect(refused).toHaveLength(1);
    expect(refused[0]).toMatchObject({ line: 1, problem: `keeps its columns apart by ${name}` });
    expect(refused[0]?.remedy).toContain('with commas');
  });

  it('answers an empty file and a file with a header alone', () => {
    for (const text of ['', '\uFEFF', '\n\n', '\r\n']) {
      expect(parseHistory(text, { today }).refused[0]?.problem).toBe('is an empty file');
    }
    expect(parse()).toMatchObject({ rows: [], refused: [] });
  });

  it('names the line where the quoting breaks, and reads no row', () => {
    for (const cell of ['"Replace', 'Replace 3" hose', '"Replace" hose']) {
      const { rows, refused } = parse(full, withCell('task', cell), full);
      expect(rows).toEqual([]);
      expect(refused).toHaveLength(1);
      expect(refused[0]).toMatchObject({ line: 3, column: '' });
      expect(refused[0]?.value).toContain('Replace');
    }
  });

  it('refuses a today that is none', () => {
    expect(() => parseHistory('', { today: '30 June' })).toThrow('Today must be');
  });

  it('never throws on any text, and places every refusal within the file', () => {
    const piece = fc.constantFrom(
      header,
      full,
      ',',
      '"',
      '\n',
      '\r\n',
      ';',
      ':',
      '0',
      '-1',
      'x',
      '\u0000',
      '\uFEFF',
      '\uD800',
      'é',
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), (pieces) => {
        const text = pieces.join('');
        const lines = text.split(/\r\n|\r|\n/).length;
        for (const { line } of parseHistory(text, { today }).refused) {
          expect(line).toBeGreaterThanOrEqual(1);
          expect(line).toBeLessThanOrEqual(lines);
        }
      }),
      { numRuns: 500 },
    );
  });
});

describe('write refused rows', () => {
  it('keeps the rows as they were, with the reason, so that a corrected file goes straight back', () => {
    const named = withCell('task', '"Hose, ""long""\nand short"').replace('3.25', '0');
    const written = writeRefused(parse(full, named));
    expect(written.split('\n')[0]).toBe(`${header},refused_because`);
    expect(written).toContain('hours ""0"" is not above 0');
    const again = parseHistory(written, { today });
    expect(again.refused.map(({ column, value }) => [column, value])).toEqual([['hours', '0']]);
    const { rows, refused } = parseHistory(written.replace(',0,0,95', ',3.25,0,95'), { today });
    expect(refused).toEqual([]);
    expect(rows[0]?.task).toBe('Hose, "long"\nand short');
    expect(writeRefused(again)).toBe(written.replace('line 4', 'line 3'));
  });

  it('writes the header alone when nothing was refused', () => {
    expect(writeRefused(parse(full))).toBe(`${header},refused_because\n`);
  });
});

describe('row keys', () => {
  it('are the same for the same row however it is written', () => {
    const [plain] = parse(full).rows;
    const [other] = parse(
      full.replace('A:0.6;B:0.4', ' B:0.40;A:.6').replace('2.0', '2').replace('3.25', '"3.250"'),
    ).rows;
    if (plain === undefined || other === undefined) throw new Error('no row');
    expect(rowKey(other)).toBe(rowKey(plain));
    expect(rowKey({ ...plain, line: 99 })).toBe(rowKey(plain));
  });

  it('differ when any recorded thing differs', () => {
    const changes = [
      withCell('completed_on', '2024-03-01'),
      withCell('task', 'Other'),
      withCell('jasc', '7820'),
      withCell('standard_hours', ''),
      withCell('model', 'M'),
      withCell('registration', 'QQ-2'),
      withCell('mechanic', 'A'),
      withCell('hours', '3'),
      withCell('censored', '1'),
      withCell('clearance_mm', '94'),
      withCell('sight', ''),
      withCell('posture', ''),
      withCell('reach', ''),
      withCell('swing_deg', ''),
      withCell('held', '0'),
      withCell('locked_fasteners', '0'),
    ];
    expect(new Set(rowKeys(parse(full, ...changes).rows)).size).toBe(HISTORY_COLUMNS.length + 1);
  });

  it('number identical rows, so that all count and the same file again adds nothing', () => {
    const once = rowKeys(parse(full, withCell('hours', '9'), full, full).rows);
    expect(new Set(once).size).toBe(4);
    expect(rowKeys(parse(full, withCell('hours', '9'), full, full).rows)).toEqual(once);
    for (const key of rowKeys(parse(full, full).rows)) expect(once).toContain(key);
  });

  it('answer the example of the docstring', () => {
    const row = {
      line: 2,
      completedOn: '2024-05-02',
      task: 'A',
      mechanics: [],
      hours: hours(2),
      censored: false,
      found: {},
    };
    expect(rowKey(row)).toBe(
      '[1,"2024-05-02","A",null,null,null,null,[],2,false,null,null,null,null,null,null,null]',
    );
    expect(() => rowKey(row, 0)).toThrow(RangeError);
  });
});
