import { QueryClient, QueryObserver } from '@tanstack/react-query';
import { expect, test } from 'vitest';
import { RequestProblem } from '../graphql/request.ts';
import { readAgain } from '../lib/read-again.ts';

const soon = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** A page that shows a figure, which rises with every answer. */
function page(answer: (nth: number) => Promise<number>) {
  const queries = new QueryClient({ defaultOptions: { queries: { retry: false } } });
  const key = ['bench'];
  let asked = 0;
  const queryFn = () => {
    asked += 1;
    return answer(asked);
  };
  const shows = { queryKey: key, queryFn, initialData: 0, staleTime: Number.POSITIVE_INFINITY };
  new QueryObserver(queries, shows).subscribe(() => undefined);
  return { queries, key, shown: () => queries.getQueryData(key) };
}

test('what is asked anew while it is on its way is no failure, however often', async () => {
  const { queries, key, shown } = page(async (nth) => {
    await soon(20);
    return nth;
  });
  const reading = readAgain(queries, key);
  for (let more = 0; more < 4; more += 1) {
    await soon(5);
    void queries.invalidateQueries({ refetchType: 'all' });
  }
  await reading;
  expect(shown()).toBe(5);
});

test('a shop that does not answer is one', async () => {
  const { queries, key } = page(() =>
    Promise.reject(new RequestProblem('away', 'NETWORK', 'Away.')),
  );
  await expect(readAgain(queries, key)).rejects.toThrow('Away.');
});
