import { randomUUID } from 'node:crypto';
import { expect } from 'vitest';
import { type Answer, ask } from '../support/api.ts';
import { pause } from '../support/running-shop.ts';

export interface Order {
  id: string;
  number: number;
  title: string;
  state: string;
  findings: { title: string; state: string }[];
}

const noteFinding = `mutation($input: NoteFindingInput!) { noteFinding(input: $input) {
  ... on Finding { id } ... on Refusal { message } } }`;

type Noting = Answer<{ noteFinding: { id?: string; message?: string } }>;

/** A mechanic with a phone, whose findings are sent until the shop has acknowledged them. */
export class Finder {
  /** Where the shop is; it may move between two starts. */
  origin = '';
  orderId = '';
  #cookie = '';
  /** Titles of the findings that the shop has acknowledged. */
  readonly #acknowledged: string[] = [];

  /** Signs in as the demo's first mechanic, with what the command has printed. */
  async signIn(printed: string, webOrigin: string): Promise<void> {
    const [, email = '', password = ''] = /^ {2}mechanic +(\S+) +(.+)$/m.exec(printed) ?? [];
    const response = await fetch(`${this.origin}/auth/sign-in/email`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', origin: webOrigin },
      body: JSON.stringify({ email, password }),
    });
    expect(response.status, await response.text()).toBe(200);
    this.#cookie = response.headers
      .getSetCookie()
      .map((one) => one.split(';')[0])
      .join('; ');
  }

  async orders(): Promise<Order[]> {
    const { data, errors } = await ask<{ orders: { edges: { node: Order }[] } }>(
      this.origin,
      '{ orders(first: 200) { edges { node { id number title state findings { title state } } } } }',
      {},
      this.#cookie,
    );
    if (!data) throw new Error(`orders answered ${JSON.stringify(errors)}`);
    return data.orders.edges.map(({ node }) => node);
  }

  /** Notes a finding, and sends it again under the same number until the shop acknowledges it. */
  async note(title: string): Promise<void> {
    const input = {
      orderId: this.orderId,
      title,
      words: 'Seen while the machine was failing.',
      zone: '',
      class: 'observation',
      photoIds: [],
      foundAt: new Date().toISOString(),
      clientEventId: randomUUID(),
    };
    let last = '';
    for (const until = Date.now() + 90_000; Date.now() < until; await pause(100)) {
      try {
        const answer: Noting = await ask(this.origin, noteFinding, { input }, this.#cookie);
        last = JSON.stringify(answer);
        if (answer.data?.noteFinding.id) {
          this.#acknowledged.push(title);
          return;
        }
      } catch (error) {
        last = String(error);
      }
    }
    throw new Error(`"${title}" was never acknowledged; the last answer was ${last}`);
  }

  /** Every acknowledged finding is there, and each once, however often it was sent. */
  async expectNothingLost(): Promise<void> {
    const order = (await this.orders()).find(({ id }) => id === this.orderId);
    const titles = order?.findings.map(({ title }) => title) ?? [];
    const noted = titles.filter((title) => title.startsWith('Noted'));
    expect(noted.sort()).toEqual([...this.#acknowledged].sort());
  }
}
