// How long an invoice of 60 lines and 12 photos takes from the request to its last byte, and how large it is.
// In tests/: npx vitest run --config measure/vitest.config.ts. Wanted: at most 1,500 ms.
import os from 'node:os';
import { it } from 'vitest';
import { issuedInvoice } from '../api/paper/full-shop.ts';
import { startApi } from '../support/api.ts';

const RUNS = 9;

it('prints how long an invoice takes', async () => {
  const api = await startApi();
  const { shop, invoice } = await issuedInvoice(api, { lines: 60, findings: 4, each: 3 });
  const cookie = await shop.cookie('front_desk');
  const times: number[] = [];
  const busy: number[] = [];
  let bytes = 0;
  for (let run = 0; run <= RUNS; run += 1) {
    const from = performance.now();
    const used = process.cpuUsage();
    const response = await fetch(`${api.origin}/paper/invoice/${invoice.id}.pdf`, {
      headers: { cookie },
    });
    bytes = (await response.arrayBuffer()).byteLength;
    if (response.status !== 200) throw new Error(`answered ${response.status}`);
    times.push(performance.now() - from);
    const { user, system } = process.cpuUsage(used);
    busy.push((user + system) / 1000);
  }
  const [first = 0, ...warm] = times;
  const sorted = [...warm].sort((a, b) => a - b);
  const [median = 0, slowest = 0] = [sorted[RUNS >> 1], sorted.at(-1)];
  console.info(
    `invoice of 60 lines and 12 photos: first ${first.toFixed(0)} ms; then median ${median.toFixed(0)} ms, slowest ${slowest.toFixed(0)} ms of ${RUNS}; median processor time ${busy.sort((a, b) => a - b)[RUNS >> 1]?.toFixed(0)} ms; ${bytes} bytes; load ${os.loadavg()[0]?.toFixed(1)} on ${os.cpus().length} processors`,
  );
  await api.stop();
});
