import { describe, expect, it } from 'vitest';
import {
  type DoneItem,
  fitHours,
  HoursPredictor,
  suspiciousTimes,
  type WatchedItem,
} from '../../src/index.ts';
import { simulatedShop } from './shop.ts';

const jobs = simulatedShop(31, 600);

/** Watches jobs after a fit with them: so many to an order. */
function watch(change: (job: WatchedItem, index: number) => WatchedItem, some = jobs) {
  const items = some.map((job, index) =>
    change({ ...job, id: `${index}`, order: `order ${Math.floor(index / 6)}` }, index),
  );
  return suspiciousTimes(new HoursPredictor(fitHours(items)), items);
}

const clean = watch((job) => job);

describe('suspicious times', () => {
  it('are few where nothing is wrong', () => {
    expect(clean.length).toBeLessThan(jobs.length * 0.03);
  });

  it.each([8, 0.08])('a time that is %s times too long', (times) => {
    const found = watch((job, index) =>
      index === 77 ? { ...job, hours: job.hours * times } : job,
    );
    const one = found.find(({ id }) => id === '77')!;
    expect(one.weight).toBeLessThan(0.5);
    const reason = one.reasons.find(({ kind }) => kind !== 'wrong-task')!;
    expect(reason.kind).toBe(times > 1 ? 'too-long' : 'too-short');
    expect(reason).toMatchObject({ times: expect.any(Number), oneIn: expect.any(Number) });
    expect((reason as { oneIn: number }).oneIn).toBeGreaterThan(200);
    expect(reason.words).toMatch(/one in \d+ would be so (long|short)\. Was/);
  });

  it('a task done once is not excused by its own time', () => {
    const odd: DoneItem = { ...jobs[0]!, task: 'Only once', standardHours: 1, hours: 30 };
    const found = watch((job) => job, [...jobs, odd]);
    expect(found[0]).toMatchObject({ id: '600', reasons: [{ kind: 'too-long' }] });
  });

  it('more hours than its people were in', () => {
    const found = watch((job, index) =>
      index === 5 ? { ...job, presentHours: job.hours * 0.9 } : { ...job, presentHours: job.hours },
    );
    const impossible = found.filter(({ reasons }) =>
      reasons.some(({ kind }) => kind === 'impossible'),
    );
    expect(impossible.map(({ id }) => id)).toEqual(['5']);
    expect(impossible[0]!.reasons[0]!.words).toMatch(/were clocked, but its people were in for/);
  });

  it('hours that fit another task of the order', () => {
    const tasks = new Map(jobs.map((job) => [job.task, job]));
    const [short, ...longer] = [...tasks.values()].sort(
      (a, b) => a.standardHours! - b.standardHours!,
    );
    const long = longer.at(-1)!;
    const swapped: DoneItem[] = [
      { ...long, hours: long.standardHours! },
      { ...short!, hours: long.standardHours! },
    ];
    const found = watch((job) => job, [...jobs, ...swapped]);
    const one = found.find(({ id }) => id === '601')!;
    expect(one.reasons.map(({ kind }) => kind)).toEqual(['wrong-task', 'too-long']);
    expect(one.reasons[0]).toMatchObject({ otherTask: long.task });
    expect(found.some(({ id }) => id === '600')).toBe(false);
  });

  it('nothing of a lower bound but what cannot be', () => {
    const found = watch((job, index) =>
      index === 9 ? { ...job, hours: job.hours * 50, censored: true } : job,
    );
    expect(found.some(({ id }) => id === '9')).toBe(false);
  });

  it('refuses hours that are none', () => {
    const predictor = new HoursPredictor(fitHours(jobs));
    const one = { ...jobs[0]!, id: 'a' };
    expect(() => suspiciousTimes(predictor, [{ ...one, hours: 0 }])).toThrow(/Hours must be/);
    expect(() => suspiciousTimes(predictor, [{ ...one, presentHours: Number.NaN }])).toThrow(
      /Hours must be/,
    );
  });
});
