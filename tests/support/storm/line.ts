import http from 'node:http';
import type { Dice } from './acts.ts';

/** What may become of a request. */
export const fates = ['whole', 'never sent', 'cut within', 'cut after', 'unheard'] as const;
export type Fate = (typeof fates)[number];

/** The line between a telephone and the shop, as bad as the dice make it. */
export class Line {
  /** How many requests met which fate. */
  readonly met = new Map<Fate, number>();
  private readonly dice: Dice;
  private readonly port: number;
  private readonly cookie: string;
  /** Share of requests that go wrong; 0 once the storm is over. */
  trouble: number;
  /** Out of reach altogether. */
  away = false;

  constructor(of: { dice: Dice; port: number; cookie: string; trouble: number }) {
    this.dice = of.dice;
    this.port = of.port;
    this.cookie = of.cookie;
    this.trouble = of.trouble;
  }

  /** Posts one GraphQL request; rejects where no answer was heard. */
  async post(query: string, variables: object): Promise<{ body: unknown; time: number }> {
    if (this.away) {
      await pause(50);
      throw new Error('away');
    }
    const fate = this.dice.chance(this.trouble) ? this.dice.one(fates.slice(1)) : 'whole';
    this.met.set(fate, (this.met.get(fate) ?? 0) + 1);
    if (fate === 'never sent') {
      await pause(this.dice.below(20));
      throw new Error(fate);
    }
    const body = JSON.stringify({ query, variables });
    const cutAfter = this.dice.below(60);
    return new Promise((resolve, reject) => {
      const request = http.request({
        host: '127.0.0.1',
        port: this.port,
        path: '/graphql',
        method: 'POST',
        agent: false,
        timeout: 20_000,
        headers: {
          'content-type': 'application/json',
          'content-length': Buffer.byteLength(body),
          'apollo-require-preflight': '1',
          cookie: this.cookie,
        },
      });
      request.once('error', reject);
      request.once('timeout', () => request.destroy(new Error('no answer')));
      request.once('response', (response) => {
        let text = '';
        response.setEncoding('utf8').on('data', (piece: string) => (text += piece));
        response.once('error', reject);
        response.once('close', () => reject(new Error('broken off')));
        response.once('end', () => {
          if (fate === 'unheard') return reject(new Error(fate));
          const status = response.statusCode ?? 0;
          if (status >= 500) return reject(new Error(`HTTP ${status}`));
          try {
            resolve({ body: JSON.parse(text), time: Number(response.headers['fairlead-time']) });
          } catch {
            reject(new Error('unreadable'));
          }
        });
      });
      if (fate === 'cut within') {
        request.write(body.slice(0, Math.floor(body.length / 2)));
        setTimeout(() => request.destroy(new Error(fate)), 5);
        return;
      }
      request.end(body);
      if (fate === 'cut after') setTimeout(() => request.destroy(new Error(fate)), cutAfter);
    });
  }
}

export const pause = (ms: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, ms));
