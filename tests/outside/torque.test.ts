import {
  compressionLoss,
  convertTorque,
  generalTorque,
  generalTorques,
  type NutKind,
  safetyWire,
  torqueAtFastener,
  torqueSetting,
} from '@fairlead/airworthiness';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';

// Source: AC 43.13-1B (9/8/98), table 7-1, typed in a second time, column by column as the page prints it.
const thread =
  '8-36 10-32 1/4-28 5/16-24 3/8-24 7/16-20 1/2-20 9/16-18 5/8-18 3/4-16 7/8-14 1-14 1-1/8-12 1-1/4-12 8-32 10-24 1/4-20 5/16-18 3/8-16 7/16-14 1/2-13 9/16-12 5/8-11 3/4-10 7/8-9'.split(
    ' ',
  );
const columns: Record<NutKind, { range: string; most: string }> = {
  tension: {
    range:
      '12-15 20-25 50-70 100-140 160-190 450-500 480-690 800-1000 1100-1300 2300-2500 2500-3000 3700-5500 5000-7000 9000-11000 12-15 20-25 40-50 80-90 160-185 235-255 400-480 500-700 700-900 1150-1600 2200-3000',
    most: '20 40 100 225 390 840 1100 1600 2400 5000 7000 10000 15000 25000 20 35 75 160 275 475 880 1100 1500 2500 4600',
  },
  shear: {
    range:
      '7-9 12-15 30-40 60-85 95-110 270-300 290-410 480-600 600-780 1300-1500 1500-1800 2200-3300* 3000-4200* 5400-6600* 7-9 12-15 25-30 48-55 95-100 140-155 240-290 300-420 420-540 700-950 1300-1800',
    most: '12 25 60 140 240 500 660 960 1400 3000 4200 6000 9000 15000 12 21 45 100 170 280 520 650 900 1500 2700',
  },
};

describe('general torques, where the maker gives none (AC 43.13-1B, table 7-1)', () => {
  for (const nut of ['tension', 'shear'] as const) {
    const [ranges, mosts] = [columns[nut].range.split(' '), columns[nut].most.split(' ')];
    test.each(thread.map((each, index) => [each, ranges[index] ?? '', mosts[index] ?? '']))(
      `${nut} nut, %s: %s in-lb, never beyond %s`,
      (each, range, most) => {
        const [from, to] = range.replace('*', '').split('-').map(Number);
        expect(generalTorque(each, nut)).toEqual({
          thread: each,
          series: thread.indexOf(each) < 14 ? 'fine' : 'coarse',
          nut,
          from,
          to,
          most: Number(most),
          estimated: range.endsWith('*'),
        });
      },
    );
  }

  test('has these 25 threads and no other, and answers nothing for one that it lacks', () => {
    expect(generalTorques.map((row) => row.thread)).toEqual(thread.flatMap((one) => [one, one]));
    expect(generalTorque('M8x1.25', 'tension')).toBeUndefined();
    expect(generalTorque(' 1/4 - 28 ', 'tension')?.from).toBe(50);
  });
});

describe('the setting of a wrench with an adapter (AC 43.13-1B, 7-40 h and figure 7-2)', () => {
  test.each([
    // A maker's maintenance manual, page 224 of the stored copy; the figure of AC 43.13-1B from memory says the same.
    [135, 10, 1.5, '117.39'],
    [135, 10, -1.5, '158.82'],
    // TM 1-1500-204-23-9, page 143: prints 214.
    [300, 10, 4, '214.29'],
    // A tool maker's manual: 50 ft-lb, L 16, E 2; and none for an adapter square to the wrench.
    [50, 16, 2, '44.44'],
    [135, 10, 0, '135.00'],
  ])('%f wanted, lever %f, adapter %f: set %s', (torque, lever, extension, set) => {
    expect(torqueSetting({ torque, arm: { lever, extension } }).toFixed(2)).toBe(set);
  });

  test('a wrench set to 60 with 2 on 12 gives 70 (TM 9-254, page 91)', () => {
    expect(torqueAtFastener({ setting: 60, arm: { lever: 12, extension: 2 } })).toBe(70);
  });

  test('friction drag is added: 1/4-28, 50 to 70 in-lb and 12 of drag, is 62 to 82 (7-40 c and d)', () => {
    const { from = 0, to = 0 } = generalTorque('1/4-28', 'tension') ?? {};
    expect([from, to].map((torque) => torqueSetting({ torque, drag: 12 }))).toEqual([62, 82]);
  });

  const positive = fc.double({ min: 0.1, max: 10_000, noNaN: true });
  test('setting and fastener are each other’s way back, and a longer arm always means less', () => {
    fc.assert(
      fc.property(positive, positive, positive, (torque, lever, extension) => {
        const arm = { lever, extension };
        const setting = torqueSetting({ torque, arm });
        expect(torqueAtFastener({ setting, arm }) / torque).toBeCloseTo(1, 12);
        expect(setting).toBeLessThan(torque);
      }),
    );
  });

  test('what cannot be is refused', () => {
    expect(() => torqueSetting({ torque: 0 })).toThrow(/torque of 0/);
    expect(() => torqueSetting({ torque: 10, drag: -1 })).toThrow(/friction drag of -1/);
    expect(() => torqueSetting({ torque: 10, arm: { lever: 0, extension: 1 } })).toThrow(/lever/);
    expect(() => torqueSetting({ torque: 10, arm: { lever: 10, extension: -10 } })).toThrow(
      /extension of -10/,
    );
  });
});

test('units: 1 in-lb is 0.112 984 8 N·m, 1 ft-lb is 1.355 818 N·m (NIST SP 811, appendix B.8)', () => {
  expect(convertTorque(1, 'in_lb', 'n_m')).toBeCloseTo(0.112_984_8, 7);
  expect(convertTorque(1, 'ft_lb', 'n_m')).toBeCloseTo(1.355_818, 6);
  expect(convertTorque(120, 'in_lb', 'ft_lb')).toBe(10);
  expect(convertTorque(convertTorque(135, 'in_lb', 'n_m'), 'n_m', 'in_lb')).toBeCloseTo(135, 10);
});

describe('differential compression (AC 43.13-1B, 8-14: a loss in excess of 25 % is cause to suspect)', () => {
  test.each([
    [80, 80, false],
    [80, 75, false],
    [80, 60, false],
    [80, 59, true],
    [80, 0, true],
    [100, 75, false],
    [100, 74, true],
  ])('%f psi in, %f held: in excess %s', (supply, held, inExcess) => {
    expect(compressionLoss({ supply, held })).toEqual({
      loss: (supply - held) / supply,
      inExcess,
    });
  });
  test('a cylinder holds no more than was put in', () => {
    expect(() => compressionLoss({ supply: 80, held: 81 })).toThrow(/reading of 81/);
    expect(() => compressionLoss({ supply: 0, held: 0 })).toThrow(/supply of 0/);
  });
});

test('safety wire: 6 to 8 twists an inch (seen as quoted by others), a pigtail of 3 to 6 turns (from memory)', () => {
  expect(safetyWire).toEqual({
    twistsAnInch: { least: 6, most: 8 },
    pigtailTurns: { least: 3, most: 6 },
  });
});
