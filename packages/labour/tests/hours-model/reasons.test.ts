import { describe, expect, it } from 'vitest';
import { chainHours, fitHours, HoursPredictor, oneSentence, reasonsOf } from '../../src/index.ts';

const done = (hours: number, mechanic: string) => ({
  task: 'pump',
  jasc: '7310',
  standardHours: 2,
  model: 'T-2',
  registration: 'QQ-1',
  mechanics: [{ name: mechanic, share: 1 }],
  hours,
  censored: false,
});
const model = fitHours([2.4, 2.6, 2.2, 2.5, 2.9].map((hours) => done(hours, 'A')));
const predictor = new HoursPredictor(model);

describe('reasons of an estimate by the model', () => {
  const estimate = predictor.estimate({
    ...done(1, 'A'),
    place: { clearanceMm: 150, sight: 'mirror' },
    statedFor: { clearanceMm: 400, sight: 'direct' },
  });
  const because = reasonsOf(estimate.steps, 5);

  it('multiply to the P50', () => {
    expect(Math.abs(chainHours(because) / estimate.p50 - 1)).toBeLessThan(1e-12);
    expect(because.map(({ kind }) => kind)).toEqual([
      'standard',
      'shop',
      'place',
      'mechanic',
      'aircraft',
    ]);
  });

  it('say the place, and that nothing like it was clocked yet', () => {
    expect(because[2]?.sentence).toMatch(/^This place ×1\.\d\d: .*mirror.*by common practice/);
    expect(because[1]?.sentence).toMatch(
      /^This shop takes ×1\.\d\d of that, by 5 jobs of this task/,
    );
  });

  it('become one sentence that names nobody', () => {
    const sentence = oneSentence(because, estimate);
    expect(sentence).toMatch(
      /^2\.0 h is the standard time, this shop takes ×1\.\d\d of it, this place makes it ×1\.\d\d.*: about \d\.\d h, nine times in ten under \d\.\d h\.$/,
    );
    expect(oneSentence([], estimate)).toBeUndefined();
    expect(oneSentence(because.slice(0, 1), { p50: 2, p90: 3 })).toBe(
      '2.0 h is the standard time: about 2.0 h, nine times in ten under 3.0 h.',
    );
  });
});
