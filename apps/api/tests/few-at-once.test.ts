import { expect, it } from 'vitest';
import { fewAtOnce } from '../src/work/few-at-once.ts';

it('lets so many go on at once, the others in their order, also after one that failed', async () => {
  const few = fewAtOnce(2);
  const begun: number[] = [];
  const ends: (() => void)[] = [];
  const work = (number: number) =>
    few(async () => {
      begun.push(number);
      await new Promise<void>((resolve) => (ends[number] = resolve));
      if (number === 1) throw new Error('failed');
      return number;
    });
  const all = [0, 1, 2, 3].map((number) => work(number).catch(() => -1));
  const settled = () => new Promise((resolve) => setImmediate(resolve));
  await settled();
  expect(begun).toEqual([0, 1]);
  ends[1]?.();
  await settled();
  expect(begun).toEqual([0, 1, 2]);
  ends[0]?.();
  ends[2]?.();
  await settled();
  expect(begun).toEqual([0, 1, 2, 3]);
  ends[3]?.();
  expect(await Promise.all(all)).toEqual([0, -1, 2, 3]);
  expect(await few(() => Promise.resolve(5))).toBe(5);
});
