import { describe, expect, test, vi } from 'vitest';
import { onceMore } from '../lib/once-more.ts';

/** Work whose rounds end when the test says so. */
function rounds() {
  const ends: ((problem?: Error) => void)[] = [];
  const work = vi.fn(
    () =>
      new Promise<void>((resolve, reject) => {
        ends.push((problem) => (problem ? reject(problem) : resolve()));
      }),
  );
  return { work, ends };
}
const settled = () => new Promise((resolve) => setTimeout(resolve));

describe('work asked for more often than it can be done', () => {
  test('what is asked while a round goes on is one more round, however often it is asked', async () => {
    const { work, ends } = rounds();
    const ask = onceMore(work);
    for (let n = 0; n < 50; n += 1) ask();
    await settled();
    // Nobody who goes on asking keeps the first round from its end.
    expect(work).toHaveBeenCalledTimes(1);
    ends[0]?.();
    await settled();
    expect(work).toHaveBeenCalledTimes(2);
    ends[1]?.();
    await settled();
    expect(work).toHaveBeenCalledTimes(2);
  });

  test('a round that failed does not keep the next from beginning', async () => {
    const { work, ends } = rounds();
    const ask = onceMore(work);
    ask();
    ask();
    ends[0]?.(new Error('away'));
    await settled();
    expect(work).toHaveBeenCalledTimes(2);
    ends[1]?.(new Error('away'));
    await settled();
    ask();
    expect(work).toHaveBeenCalledTimes(3);
  });
});
