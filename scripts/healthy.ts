import http from 'node:http';
import type { Supervised } from './processes.ts';
import { Refusal } from './progress.ts';

/** One request on a connection of its own: a kept one would hold up the server when it is to stop. */
function answers(url: string): Promise<boolean> {
  return new Promise((resolve) => {
    const request = http.get(url, { agent: false, timeout: 5000 }, (response) => {
      response.resume();
      response.once('end', () => resolve((response.statusCode ?? 500) < 400));
      response.once('error', () => resolve(false));
    });
    request.once('timeout', () => request.destroy());
    request.once('error', () => resolve(false));
  });
}

/** Waits until an address answers without an error; gives up when its process keeps failing or after `limit` ms. */
export async function untilHealthy(
  url: string,
  server: Supervised,
  limit: number,
  stopped: () => boolean,
): Promise<void> {
  const until = Date.now() + limit;
  while (!(await answers(url))) {
    if (stopped()) return;
    if (server.failures() >= 3) {
      throw new Refusal(
        `The ${server.name} ends as soon as it is started. It last said:\n${server.tail()}`,
      );
    }
    if (Date.now() > until) {
      throw new Refusal(
        `The ${server.name} did not answer at ${url} within ${Math.round(limit / 1000)} s. It last said:\n${server.tail()}`,
      );
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}
