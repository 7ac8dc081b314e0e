import { describe, expect, test } from 'vitest';
import { evidenceLack, releaseLack, type SigningEvidence } from '../src/index.ts';

/** Source: 14 CFR 65.81(a), 65.83, 65.92(a), 65.93, 145.157, 145.161(a), read in the regulation's text. */
const months = ['2025-08', '2025-09', '2025-10', '2025-11', '2025-12', '2026-01'];
const whole: SigningEvidence = {
  done: ['minor_work_airframe', 'annual_inspection'],
  monthsServed: months,
  foundAble: [],
  inspectionActivity: [],
  authorizedSince: '2020-01-01',
};
const paragraph = (
  over: Partial<SigningEvidence> = {},
  on = '2026-03-14',
  kind: 'minor_work_airframe' | 'annual_inspection' = 'minor_work_airframe',
) => evidenceLack(kind, { ...whole, ...over }, on)?.paragraph;

describe('65.81(a): the work was done before', () => {
  test('else its approval is refused', () => {
    expect(paragraph()).toBeUndefined();
    expect(paragraph({ done: ['annual_inspection'] })).toBe('14 CFR 65.81(a)');
  });
});

describe('65.83: six months within the preceding twenty-four', () => {
  test('five are not enough, found able is', () => {
    expect(paragraph({ monthsServed: months.slice(1) })).toBe('14 CFR 65.83');
    expect(paragraph({ monthsServed: [], foundAble: ['2024-03-14'] })).toBeUndefined();
    expect(paragraph({ monthsServed: [], foundAble: ['2024-03-13'] })).toBe('14 CFR 65.83');
  });
  test('a month counts once, and not when it is too old or to come', () => {
    expect(paragraph({ monthsServed: [...months.slice(1), '2025-12'] })).toBe('14 CFR 65.83');
    expect(paragraph({ monthsServed: [...months.slice(1), '2026-04'] })).toBe('14 CFR 65.83');
    expect(paragraph({}, '2027-08-31')).toBeUndefined();
    expect(paragraph({}, '2027-09-01')).toBe('14 CFR 65.83');
  });
});

describe('65.93: the second of the two years of an inspection authorization', () => {
  const annual = (over: Partial<SigningEvidence>, on: string) =>
    paragraph(
      {
        monthsServed: ['2026-06', '2026-07', '2026-08', '2026-09', '2026-10', '2026-11', ...months],
        ...over,
      },
      on,
      'annual_inspection',
    );
  test('nothing is asked in the first, to its last day', () => {
    expect(annual({}, '2026-03-31')).toBeUndefined();
    expect(annual({}, '2026-04-01')).toBe('14 CFR 65.93(c)');
  });
  test('an activity of the first year, or an oral test since, suffices; one of before does not', () => {
    expect(annual({ inspectionActivity: ['2025-04-01'] }, '2026-12-01')).toBeUndefined();
    expect(annual({ inspectionActivity: ['2026-10-05'] }, '2026-12-01')).toBeUndefined();
    expect(annual({ inspectionActivity: ['2025-03-31'] }, '2026-12-01')).toBe('14 CFR 65.93(c)');
  });
  test('(b)(2) held less than 90 days before 31 March of the even year: exempt', () => {
    expect(annual({ authorizedSince: '2026-01-01' }, '2026-12-01')).toBeUndefined();
    expect(annual({ authorizedSince: '2025-12-31' }, '2026-12-01')).toBe('14 CFR 65.93(c)');
  });
  test('nobody asks it for work that rests on a mechanic’s rating alone', () => {
    expect(
      paragraph({ monthsServed: ['2026-06', '2026-07', '2026-08', ...months] }, '2026-12-01'),
    ).toBeUndefined();
  });
});

describe('145.157, 145.161(a)(3): the roster of those who sign a release', () => {
  test('names a person for a rating', () => {
    expect(releaseLack('minor_work_powerplant', ['powerplant'])).toBeUndefined();
    expect(releaseLack('minor_work_powerplant', ['airframe'])?.paragraph).toContain(
      '145.161(a)(3)',
    );
    expect(releaseLack('repair_station_work', ['radio'])).toBeUndefined();
    expect(releaseLack('repair_station_work', [])?.lack).toContain('any');
  });
});
