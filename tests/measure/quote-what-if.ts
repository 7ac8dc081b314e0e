// How long the desk waits for a what-if, at the server, with 20,000 closed items of history behind it.
// In tests/: npx vitest run --config measure/vitest.config.ts quote-what-if. Wanted: at most 100 ms.
import os from 'node:os';
import { globalId as gid } from '@fairlead/api/ids';
import { expect, it } from 'vitest';
import { startApi } from '../support/api.ts';
import { addJobs, learn, makeShop, makeTask } from '../support/shop.ts';

const TASKS = 60;
const RUNS = 25;
const ROLES = ['front_desk', 'mechanic', 'inspector', 'manager'] as const;
const ASK = `query ($input: QuoteForecastInput!) { quoteForecast(input: $input) { __typename
  ... on Refusal { message }
  ... on QuoteForecast { low likely p80 high tax hours { p10 p50 p80 p90 } promise { beginsOn p50 p80 sentence }
    lines { position title low likely p80 high hours { p10 p50 p80 p90 } because { kind sentence hours factor } } } } }`;

it('prints how long a what-if takes', async () => {
  const api = await startApi();
  const shop = await makeShop(api);
  const taskIds: string[] = [];
  for (let task = 0; task < TASKS; task += 1) {
    const { id, key } = await makeTask(shop, { key: `task-${task}`, title: `Task ${task}` });
    taskIds.push(gid('Task', id));
    for (const [index, role] of ROLES.entries())
      await addJobs(
        shop,
        key,
        Array.from(
          { length: Math.ceil(20_000 / TASKS / ROLES.length) },
          (_, job) => (0.4 + (task % 9)) * (0.7 + ((job * 37) % 100) / 130) * (1 + index / 20),
        ),
        { mechanic: `Test ${role}`, registration: `T-${task % 12}`, model: `T ${task % 5}` },
      );
  }
  const items = await shop.inside((tx) => tx.historyItem.count());
  expect(items).toBeGreaterThanOrEqual(20_000);
  await learn(shop);
  const personId = gid('Person', shop.people.mechanic.id);
  for (const lines of [12, TASKS]) {
    const times: number[] = [];
    for (let run = 0; run <= RUNS; run += 1) {
      const from = performance.now();
      const answer = await shop.as<{ quoteForecast: { __typename: string } }>('front_desk', ASK, {
        input: {
          aircraftId: gid('Aircraft', shop.aircraftId),
          tasks: taskIds.slice(run % 2, lines).map((taskId) => ({ taskId })),
          ...(run % 3 === 0 && { mechanicId: personId }),
        },
      });
      times.push(performance.now() - from);
      expect(answer.data?.quoteForecast.__typename).toBe('QuoteForecast');
    }
    const [first = 0, ...warm] = times;
    const sorted = [...warm].sort((one, other) => one - other);
    console.info(
      `what-if of ${lines} tasks beside ${items} items of history: first ${first.toFixed(0)} ms; then median ${sorted[RUNS >> 1]?.toFixed(0)} ms, slowest ${sorted.at(-1)?.toFixed(0)} ms of ${RUNS}; load ${os.loadavg()[0]?.toFixed(1)} on ${os.cpus().length} processors`,
    );
  }
  await api.stop();
});
