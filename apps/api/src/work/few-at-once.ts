/**
 * Lets so many pieces of work go on at once; the others wait in the order in which they came.
 *
 * @param most at least 1
 * @example const few = fewAtOnce(2); await few(async () => 3) // → 3
 */
export function fewAtOnce(most: number): <T>(work: () => Promise<T>) => Promise<T> {
  let going = 0;
  const waiting: (() => void)[] = [];
  return async (work) => {
    if (going >= most) await new Promise<void>((resolve) => waiting.push(resolve));
    else going += 1;
    try {
      return await work();
    } finally {
      // Whoever waits takes the place over, so that nobody slips in between.
      const next = waiting.shift();
      if (next) next();
      else going -= 1;
    }
  };
}
