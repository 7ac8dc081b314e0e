import fs from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, it, vi } from 'vitest';
import type { HoursModel } from '../../packages/labour/src/index.ts';
import { run as bare, folderFor } from './labour-command.ts';

const { folder, write } = folderFor();
afterAll(() => fs.rmSync(folder, { recursive: true }));

/** On a busy machine even these take the second after which progress is told. */
const run = (...args: string[]) => {
  const { code, out, told } = bare(...args);
  return { code, out, told: told.replace(/^ {2}… .*\n/gm, '') };
};

const KNOWN =
  'task,jasc,standard_hours,model,registration,mechanic,clearance_mm,sight,posture,reach,swing_deg,held,locked_fasteners';
const PLACE = 'clearance_mm,sight,posture,reach,swing_deg,held,locked_fasteners';
const HEADER = `completed_on,task,jasc,standard_hours,model,registration,mechanic,hours,censored,${PLACE}`;

type Line = { readonly day: string; readonly rest: string; readonly hours: number };

/** Twenty items a month for six months, the same on every run. Invented. */
const lines: readonly Line[] = Array.from({ length: 120 }, (_, i) => {
  const month = 1 + Math.floor(i / 20);
  const task = i % 3;
  const who = ['Ann:0.6;Bo:0.4', 'Ann', 'Bo', 'Cy'][i % 4]!;
  const wave = Math.sin(12.9898 * (i + 1)) * 0.4;
  const hours = [1.5, 4, 2][task]! * Math.exp(wave + (i % 4 === 3 ? 0.2 : 0));
  return {
    day: `2025-0${month}-${String(1 + (i % 20)).padStart(2, '0')}`,
    hours: Number(hours.toFixed(3)),
    rest: `Task ${task},${['7100', '3200', '7100'][task]},${['1.2', '', '2.5'][task]},M${i % 2},QQ-${i % 5},${who}`,
  };
});
const lineOf = ({ day, rest, hours }: Line, censored = 0) =>
  `${day},${rest},${hours},${censored},,mirror,,,,,`;
const fileOf = (some: readonly Line[]) =>
  [HEADER, ...some.map((one) => lineOf(one)), ''].join('\n');
const itemsOf = (...items: string[]) => [`id,${KNOWN}`, ...items, ''].join('\n');
const itemOf = ({ rest }: Line, id: string) => `${id},${rest},,mirror,,,,,`;

function fitted(history: string, name: string): { model: string; answer: Record<string, unknown> } {
  const model = path.join(folder, `${name}.model`);
  const { code, out, told } = run('fit', write(`${name}.csv`, history), '--out', model);
  expect({ code, told }).toEqual({ code: 0, told: '' });
  return { model, answer: JSON.parse(out) };
}
const modelOf = (file: string) => JSON.parse(fs.readFileSync(file, 'utf8')) as HoursModel;

/** Posterior mean and variance of one linear predictor by Henderson's mixed-model equations, dense, by elimination. */
function henderson(model: HoursModel, l: Float64Array): { mean: number; variance: number } {
  const p = model.columns.length;
  const starts: number[] = [];
  let size = p;
  for (const { levels } of model.factors) {
    starts.push(size);
    size += levels.length;
  }
  const sigma2 = Math.exp(2 * model.lnSigma);
  // The equations, with the right-hand side and the predictor beside them.
  const a = Array.from({ length: size }, () => new Float64Array(size + 2));
  for (const { weight, y, x, z } of model.rows) {
    const row = new Float64Array(size);
    for (let k = 0; k < x.length; k += 2) row[x[k]!]! += x[k + 1]!;
    for (let k = 0; k < z.length; k += 3) row[starts[z[k]!]! + z[k + 1]!]! += z[k + 2]!;
    for (let i = 0; i < size; i += 1) {
      for (let j = 0; j < size; j += 1) a[i]![j]! += weight * row[i]! * row[j]!;
      a[i]![size]! += weight * row[i]! * y;
    }
  }
  model.columns.forEach(({ mean, sd }, j) => {
    a[j]![j]! += sigma2 / sd ** 2;
    a[j]![size]! += (sigma2 / sd ** 2) * mean;
  });
  model.factors.forEach(({ relative, levels }, factor) => {
    for (let level = 0; level < levels.length; level += 1) {
      a[starts[factor]! + level]![starts[factor]! + level]! += 1 / relative ** 2;
    }
  });
  for (let i = 0; i < size; i += 1) a[i]![size + 1] = l[i]!;
  for (let i = 0; i < size; i += 1) {
    for (let k = 0; k < size; k += 1) {
      if (k === i) continue;
      const factor = a[k]![i]! / a[i]![i]!;
      for (let j = i; j < size + 2; j += 1) a[k]![j]! -= factor * a[i]![j]!;
    }
  }
  let [mean, variance] = [0, 0];
  for (let i = 0; i < size; i += 1) {
    mean += (l[i]! * a[i]![size]!) / a[i]![i]!;
    variance += (l[i]! * sigma2 * a[i]![size + 1]!) / a[i]![i]!;
  }
  return { mean, variance };
}

/** The predictor of an item: names of columns, and of levels with their shares. */
function predictorOf(
  model: HoursModel,
  columns: readonly string[],
  levels: readonly (readonly [factor: string, level: string, share: number])[],
): Float64Array {
  const size = model.factors.reduce((sum, one) => sum + one.levels.length, model.columns.length);
  const l = new Float64Array(size);
  for (const name of columns) l[model.columns.findIndex((one) => one.name === name)] = 1;
  for (const [name, level, share] of levels) {
    let at = model.columns.length;
    for (const { factor, levels: all } of model.factors) {
      if (factor === name) l[at + all.indexOf(level)] = share;
      at += all.length;
    }
  }
  return l;
}

describe('fit', () => {
  it('writes a model and answers with what can be counted and with its spreads', () => {
    const censored = [...lines.slice(0, 118)];
    const text = `${fileOf(censored)}${lineOf(lines[118]!, 1)}\n${lineOf(lines[119]!, 1)}\n`;
    const { model: file, answer } = fitted(text, 'counted');
    const model = modelOf(file);
    const finished = censored.map(({ hours }) => hours).sort((a, b) => a - b);
    expect(answer).toMatchObject({
      version: model.version,
      items: 120,
      censored: 2,
      refused: 0,
      medianHours: Math.sqrt(finished[58]! * finished[59]!),
      residualSd: Math.exp(model.lnSigma),
    });
    const mechanics = model.factors.find(({ factor }) => factor === 'mechanic')!;
    expect(mechanics.levels.toSorted()).toEqual(['Ann', 'Bo', 'Cy']);
    // Ann: a share of every fourth item and all of another fourth; two of the last items are lower bounds, of Bo and Cy.
    expect(mechanics.items[mechanics.levels.indexOf('Ann')]).toBe(60);
    expect(mechanics.items[mechanics.levels.indexOf('Cy')]).toBe(29);
    const spreads = answer['spreads'] as Record<string, number>;
    expect(spreads['mechanic']).toBe(mechanics.relative * Math.exp(model.lnSigma));
  });

  it('gives the same model for the same file', () => {
    const twice = ['one', 'two'].map((name) => modelOf(fitted(fileOf(lines), name).model));
    expect(twice[1]).toEqual(twice[0]);
  });

  it('is looked up, and writes, from where the command was called', () => {
    write('here/history.csv', fileOf(lines.slice(0, 40)));
    vi.stubEnv('INIT_CWD', path.join(folder, 'here'));
    try {
      expect(run('fit', 'history.csv', '--out', 'm.json').code).toBe(0);
    } finally {
      vi.unstubAllEnvs();
    }
    expect(fs.existsSync(path.join(folder, 'here/m.json'))).toBe(true);
  });
});

describe('a bad row', () => {
  const good = lineOf(lines[0]!);
  const text = [
    HEADER,
    good,
    good.replace(/,\d\.\d+,0,/, ',-3,0,'),
    good.replace('mirror', 'sideways'),
    good.replace('2025-01-01', 'yesterday'),
    lineOf(lines[1]!),
    '',
  ].join('\n');

  it('is refused by line, column, value and what would be right; nothing is written', () => {
    const out = path.join(folder, 'never.model');
    const { code, out: said, told } = run('fit', write('bad.csv', text), '--out', out);
    expect({ code, said }).toEqual({ code: 1, said: '' });
    expect(told).toMatch(/bad\.csv: nothing was used, because\n/);
    expect(told).toMatch(/line 3: hours "-3" .+\. .+/);
    expect(told).toMatch(/line 4: sight "sideways" .*direct.*mirror.*feel/);
    expect(told).toMatch(/line 5: completed_on "yesterday" .+\. .+/);
    expect(told.trim().split('\n')).toHaveLength(4);
    expect(fs.existsSync(out)).toBe(false);
  });

  it('is skipped if so asked: the rest is fitted, the row goes to a file with its reason', () => {
    const file = write('some.csv', text);
    const model = path.join(folder, 'some.model');
    const { code, out } = run('fit', file, '--out', model, '--skip-bad');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ items: 2, refused: 3 });
    const refused = fs
      .readFileSync(path.join(folder, 'some.refused.csv'), 'utf8')
      .trim()
      .split('\n');
    expect(refused).toHaveLength(4);
    expect(refused[0]).toBe(`${HEADER},refused_because`);
    expect(refused[2]).toMatch(/sideways.*line 4: sight/);
    const again = run('fit', file, '--out', model, '--skip-bad');
    expect(again.code).toBe(1);
    expect(again.told).toContain('it exists already, and nothing of yours is overwritten');
    const elsewhere = path.join(folder, 'elsewhere.csv');
    expect(run('fit', file, '--out', model, '--skip-bad', '--refused', elsewhere).code).toBe(0);
    expect(fs.readFileSync(elsewhere, 'utf8').trim().split('\n')).toHaveLength(4);
  });

  it('stops a back-test and an estimate', () => {
    const file = write('bad-too.csv', text);
    expect(run('backtest', file)).toMatchObject({ code: 1, out: '' });
    const { model } = fitted(fileOf(lines), 'for-bad-items');
    const items = write('items.csv', itemsOf('a,Task 0,7100,none,M0,QQ-1,Ann,,mirror,,,,,'));
    const { code, out, told } = run('estimate', model, items);
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(told).toMatch(/line 2: standard_hours "none" .+\. .+/);
  });
});

describe('estimate', () => {
  const { model: file } = fitted(fileOf(lines), 'estimated');
  const model = modelOf(file);
  const items = itemsOf(
    itemOf(lines[0]!, 'shared'),
    'nobody,Task 1,3200,,M0,QQ-1,,,mirror,,,,,',
    'new,Never done,7100,3,M1,QQ-2,Cy,,mirror,,,,,',
  );
  const { code, out } = run('estimate', file, write('asked.csv', items));
  const answer = JSON.parse(out) as {
    items: Record<'p10' | 'p50' | 'mean' | 'p80' | 'p90' | 'jobs', number>[];
    package: Record<'p50' | 'mean' | 'p80' | 'p90' | 'sumOfP80', number>;
  };
  const sigma = Math.exp(model.lnSigma);
  const unmet = (factor: string) =>
    (model.factors.find((one) => one.factor === factor)!.relative * sigma) ** 2;
  const mirror = 'access sight:1';

  it.each([
    {
      id: 'shared',
      at: 0,
      jobs: 40,
      offset: Math.log(1.2),
      columns: ['chapter 71 on standard', mirror],
      levels: [
        ['taskWithStandard', 'Task 0', 1],
        ['mechanic', 'Ann', 0.6],
        ['mechanic', 'Bo', 0.4],
        ['modelChapter', 'M0 × 71', 1],
        ['registration', 'QQ-0', 1],
      ] as const,
      open: 0,
    },
    {
      id: 'nobody',
      at: 1,
      jobs: 40,
      offset: 0,
      columns: ['chapter 32', mirror],
      levels: [
        ['taskWithout', 'Task 1', 1],
        ['modelChapter', 'M0 × 32', 1],
        ['registration', 'QQ-1', 1],
      ] as const,
      open: unmet('mechanic'),
    },
    {
      id: 'new',
      at: 2,
      jobs: 0,
      offset: Math.log(3),
      columns: ['chapter 71 on standard', mirror],
      levels: [
        ['mechanic', 'Cy', 1],
        ['modelChapter', 'M1 × 71', 1],
        ['registration', 'QQ-2', 1],
      ] as const,
      open: unmet('taskWithStandard'),
    },
  ])(
    'of $id is what the dense equations say',
    ({ id, at, jobs, offset, columns, levels, open }) => {
      expect(code).toBe(0);
      const { mean, variance } = henderson(model, predictorOf(model, columns, levels));
      const scale = Math.sqrt(variance + open + (model.stretch * sigma) ** 2);
      const center = offset + mean;
      const one = answer.items[at]!;
      expect(one).toMatchObject({ id, jobs });
      expect(one.p50 / Math.exp(center)).toBeCloseTo(1, 9);
      expect(one.p80 / Math.exp(center + 0.8416212335729143 * scale)).toBeCloseTo(1, 9);
      expect(one.p90 / Math.exp(center + 1.2815515655446004 * scale)).toBeCloseTo(1, 9);
      expect(one.p10 / Math.exp(center - 1.2815515655446004 * scale)).toBeCloseTo(1, 9);
      expect(one.mean / Math.exp(center + scale ** 2 / 2)).toBeCloseTo(1, 9);
    },
  );

  it('of the package lies about the sum of means, its P80 under the sum of P80s, the same for the same number', () => {
    const mean = answer.items.reduce((sum, one) => sum + one.mean, 0);
    const sumOfP80 = answer.items.reduce((sum, one) => sum + one.p80, 0);
    expect(answer.package.mean).toBeCloseTo(mean, 9);
    expect(answer.package.sumOfP80).toBeCloseTo(sumOfP80, 9);
    expect(answer.package.p80).toBeLessThan(sumOfP80);
    expect(answer.package.p80).toBeGreaterThan(answer.package.p50);
    const asked = path.join(folder, 'asked.csv');
    expect(run('estimate', file, asked).out).toBe(out);
    expect(run('estimate', file, asked, '--seed', '2').out).not.toBe(out);
  });

  it('refuses a model that is none', () => {
    const asked = path.join(folder, 'asked.csv');
    for (const none of [{}, [], { ...model, version: 'older' }]) {
      const refused = run('estimate', write('none.model', none), asked);
      expect({ code: refused.code, out: refused.out }).toEqual({ code: 1, out: '' });
      expect(refused.told).not.toMatch(/undefined is|not a function|at .*\.ts:/);
    }
  });
});

describe('backtest', () => {
  it('scores a month as the model of the months before it does by hand', () => {
    const { code, out } = run('backtest', write('back.csv', fileOf(lines)));
    expect(code).toBe(0);
    const answer = JSON.parse(out) as {
      items: number;
      coverage: number;
      months: { month: string; items: number; within: number; pinball80: number }[];
      rivals: {
        rival: string;
        items: number;
        crps: number;
        modelCrps: number;
        pit: number[];
      }[];
      crps: number;
    };
    expect(answer.months.map(({ month, items }) => [month, items])).toEqual([
      ['2025-04', 20],
      ['2025-05', 20],
      ['2025-06', 20],
    ]);
    expect(answer.items).toBe(60);
    expect(answer.rivals).toHaveLength(5);
    const within = answer.months.reduce((sum, one) => sum + one.within, 0);
    expect(answer.coverage).toBeCloseTo(within / 60, 12);

    // The task's own past times as a forecast, by the double sum of its score's definition.
    const own = answer.rivals.find(({ rival }) => rival === 'own quantiles')!;
    const taskOf = (one: Line) => one.rest.split(',')[0];
    const scores = lines.slice(60).map((one, i) => {
      const before = lines.slice(0, 60 + 20 * Math.floor(i / 20));
      const past = before.filter((other) => taskOf(other) === taskOf(one));
      const mean = (of: (x: number) => number) =>
        past.reduce((sum, { hours }) => sum + of(hours), 0) / past.length;
      return mean((x) => Math.abs(x - one.hours)) - mean((x) => mean((y) => Math.abs(x - y))) / 2;
    });
    expect(own.crps).toBeCloseTo(scores.reduce((sum, one) => sum + one, 0) / 60, 9);
    for (const { items, crps, modelCrps, pit } of answer.rivals) {
      expect(pit).toHaveLength(10);
      expect(pit.reduce((sum, count) => sum + count, 0)).toBeCloseTo(items, 9);
      expect(crps).toBeGreaterThan(0);
      if (items === 60) expect(modelCrps).toBeCloseTo(answer.crps, 12);
    }

    const april = lines.slice(60, 80);
    const { model } = fitted(fileOf(lines.slice(0, 60)), 'march');
    const asked = write('april.csv', itemsOf(...april.map((one, i) => itemOf(one, `${i}`))));
    const { items } = JSON.parse(run('estimate', model, asked).out) as {
      items: { p10: number; p80: number; p90: number }[];
    };
    const inside = items.filter(
      ({ p10, p90 }, i) => april[i]!.hours >= p10 && april[i]!.hours <= p90,
    );
    const loss = items.reduce((sum, { p80 }, i) => {
      const miss = april[i]!.hours - p80;
      return sum + (miss > 0 ? 0.8 * miss : -0.2 * miss) / items.length;
    }, 0);
    expect(answer.months[0]).toMatchObject({ within: inside.length });
    expect(answer.months[0]!.pinball80).toBeCloseTo(loss, 9);
  });
});

it.each([
  [
    'fit',
    () => ['fit', write('slow.csv', fileOf(lines)), '--out', path.join(folder, 'slow')],
    / {2}… round \d+, step \d+, \d+ s\n/,
  ],
  [
    'backtest',
    () => ['backtest', write('slow.csv', fileOf(lines))],
    / {2}… predicting 2025-0\d, \d+ s\n/,
  ],
])('%s says on standard error where it is once a second has gone by', (_, args, said) => {
  let now = 0;
  const clock = vi.spyOn(performance, 'now').mockImplementation(() => (now += 400));
  try {
    const { code, out, told } = bare(...args());
    expect(code).toBe(0);
    expect(told).toMatch(said);
    expect(() => JSON.parse(out)).not.toThrow();
  } finally {
    clock.mockRestore();
  }
});

it.each([
  [['fit', 'a.csv'], 'fit needs --out MODEL'],
  [['fit', 'a.csv', '--out'], '--out needs a value after it.'],
  [['fit', 'a.csv', '--out', 'm', '--refused', 'r.csv'], '--refused only goes with --skip-bad.'],
  [['estimate', 'm'], 'It needs MODEL and ITEMS.csv; got m.'],
  [['backtest', 'a.csv', '--fast'], '"--fast" is not an option here.'],
])('%j is no use of the command: exit code 2', (args, sentence) => {
  const { code, out, told } = run(...args);
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(told).toContain(sentence);
});
