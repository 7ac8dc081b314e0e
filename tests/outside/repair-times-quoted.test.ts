import { createHash } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApi, type TestApi } from '../support/api.ts';
import { learn, makeShop, makeTask, type TestShop } from '../support/shop.ts';

/**
 * Active repair times of an airborne communication transceiver, hours: W. H. Von Alven (ed.),
 * Reliability Engineering, Prentice-Hall 1964, as listed in Chhikara & Folks, The Inverse Gaussian
 * Distribution, 1989.
 */
const TRANSCEIVER = [
  0.2, 0.3, 0.5, 0.5, 0.5, 0.5, 0.6, 0.6, 0.7, 0.7, 0.7, 0.8, 0.8, 1, 1, 1, 1, 1.1, 1.3, 1.5, 1.5,
  1.5, 1.5, 2, 2, 2.2, 2.5, 2.7, 3, 3, 3.3, 3.3, 4, 4, 4.5, 4.7, 5, 5.4, 5.4, 7, 7.5, 8.8, 9, 10.3,
  22, 24.5,
];
const TASK = 'transceiver-repair';

let api: TestApi;
let shop: TestShop;
let taskId: string;

beforeAll(async () => {
  api = await startApi();
  shop = await makeShop(api);
  // JASC 2310: HF communication system (FAA, Joint Aircraft System/Component Code Table and Definitions, 2008).
  const task = await makeTask(shop, {
    key: TASK,
    title: 'Repair the transceiver',
    jasc: '2310',
    standardHours: null,
  });
  taskId = globalId('Task', task.id);
  await shop.inside(async (tx) => {
    const sha256 = (text: string) => createHash('sha256').update(text).digest('hex');
    const { id: importId } = await tx.historyImport.create({
      data: {
        shopId: shop.shopId,
        fileName: 'transceiver.csv',
        fileSha256: sha256(TRANSCEIVER.join()),
        rows: TRANSCEIVER.length,
      },
    });
    await tx.historyItem.createMany({
      data: TRANSCEIVER.map((hours, index) => ({
        importId,
        rowHash: sha256(`${index}`),
        completedOn: new Date('1964-01-01'),
        task: TASK,
        jasc: '2310',
        model: 'Testmaker T-2',
        registration: 'QQ-001',
        mechanics: [{ name: 'A', share: 1 }],
        hours,
      })),
    });
  });
  await learn(shop);
});
afterAll(async () => {
  expect(api.faults).toEqual([]);
  await api.stop();
});

interface Estimated {
  p50: number;
  mean: number;
  p80: number;
  p90: number;
  p95: number;
  jobs: number;
  because: {
    kind: string;
    jobs: number | null;
    meanLnHours: number | null;
    sdLnHours: number | null;
  }[];
}

async function estimated(usePrior: boolean): Promise<Estimated> {
  const answer = await shop.as<{ estimateTask: Estimated }>(
    'front_desk',
    `query ($taskId: ID!, $aircraftId: ID!, $usePrior: Boolean!) { estimateTask(taskId: $taskId, aircraftId: $aircraftId, usePrior: $usePrior) {
      ... on Refusal { message } ... on Estimate { p50 mean p80 p90 p95 jobs because { kind jobs meanLnHours sdLnHours } } } }`,
    { taskId, aircraftId: globalId('Aircraft', shop.aircraftId), usePrior },
  );
  if (!answer.data?.estimateTask.because) throw new Error(JSON.stringify(answer));
  return answer.data.estimateTask;
}

describe("46 published repair times of a transceiver, as one shop's history, asked for over HTTP", () => {
  it('have the mean and s.d. of ln hours of the list', async () => {
    // Sample mean and s.d. (n − 1) of the natural logarithms, computed in R from the same list.
    const { because, jobs } = await estimated(false);
    const sample = because.find(({ kind }) => kind === 'sample');
    expect([jobs, sample?.jobs]).toEqual([46, 46]);
    expect(Math.abs((sample?.meanLnHours ?? 0) - 0.658392377788)).toBeLessThan(1e-9);
    expect(Math.abs((sample?.sdLnHours ?? 0) - 1.113965814234)).toBeLessThan(1e-9);
  });

  it('give quantiles exp(m + t₄₅,ₚ · s · √(1 + 1/46)) for the next one', async () => {
    // Computed in R: exp(m + qt(p, 45) * s * sqrt(1 + 1/46)); 12.79997 also from SciPy's t.ppf(0.95, 45).
    const { p50, mean, p80, p90, p95 } = await estimated(false);
    expect(p50).toBeCloseTo(1.93168441811657, 9);
    expect(p80.toFixed(4)).toBe('5.0286');
    expect(p90.toFixed(4)).toBe('8.3556');
    expect(p95.toFixed(4)).toBe('12.8000');
    // The lognormal mean exp(m + s²/2).
    expect(mean).toBeCloseTo(3.59251421360434, 9);
  });

  it('are quoted: the line is P90 hours at the rate, and with one task by itself the sum is that task', async () => {
    const answer = await shop.as<{
      draftQuote: {
        newest: {
          high: string;
          hours: { p90: number };
          lines: { high: string; jobs: number; hours: { p90: number } }[];
        };
      };
    }>(
      'front_desk',
      `mutation ($input: DraftQuoteInput!) { draftQuote(input: $input) { ... on Refusal { message } ... on Quote { newest { high hours { p90 } lines { high jobs hours { p90 } } } } } }`,
      {
        input: {
          aircraftId: globalId('Aircraft', shop.aircraftId),
          contactId: globalId('Contact', shop.contactId),
          tasks: [{ taskId }],
        },
      },
    );
    const newest = answer.data?.draftQuote.newest;
    const [line] = newest?.lines ?? [];
    if (!newest || !line) throw new Error(JSON.stringify(answer));
    const withPrior = await estimated(true);
    expect(line.jobs).toBe(46);
    expect(line.hours.p90).toBeCloseTo(withPrior.p90, 6);
    // Billed as the shop bills: tenths of an hour, one that was begun counts, at 95.00 an hour.
    expect(Number(line.high)).toBe(Math.ceil(line.hours.p90 * 10) * 950);
    // The simulation's own error at the 90 % point of 20,000 draws: about 1 %.
    expect(Math.abs(newest.hours.p90 / withPrior.p90 - 1)).toBeLessThan(0.03);
  });
});
