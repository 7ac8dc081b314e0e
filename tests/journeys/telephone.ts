import { mkdtempSync, rmSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { type BrowserContext, chromium, expect, type Page, test } from '@playwright/test';
import { type CuttableLine, cuttableLine } from '../support/cuttable-line.ts';

/** A mechanic's telephone: a browser with a folder of its own, on a line to the shop that can be cut. */
export interface Telephone {
  readonly line: CuttableLine;
  /** The bench's address on that line. */
  readonly bench: string;
  /** The same beside the line, which is never cut. */
  readonly beside: string;
  context(): BrowserContext;
  /** Opens the browser on what its folder holds, as a telephone that starts. */
  turnOn(): Promise<Page>;
  turnOff(): Promise<void>;
  /** What the shop itself has of an item, asked beside the line by whoever is signed in on the telephone. */
  atTheShop(item: Pick<Started, 'id'>): Promise<Item>;
  /** Asks the shop something beside the line. */
  ask<Data>(query: string, variables?: Record<string, unknown>): Promise<Data>;
  /** Turns it off for good, and takes its folder away. */
  close(): Promise<void>;
}

export async function telephone(): Promise<Telephone> {
  const { launchOptions, baseURL } = test.info().project.use;
  const port = Number(new URL(baseURL ?? '').port);
  const line = await cuttableLine(port);
  const folder = mkdtempSync(path.join(os.tmpdir(), 'fairlead-phone-'));
  let context: BrowserContext | null = null;
  const running = () => {
    if (context === null) throw new Error('The telephone is off');
    return context;
  };
  const ask = async <Data>(query: string, variables = {}): Promise<Data> => {
    const response = await running().request.post(`http://localhost:${port}/graphql`, {
      headers: { 'apollo-require-preflight': '1' },
      data: { query, variables },
    });
    return ((await response.json()) as { data: Data }).data;
  };
  return {
    line,
    bench: `http://localhost:${line.port}/bench`,
    beside: `http://localhost:${port}/bench`,
    context: running,
    async turnOn() {
      context = await chromium.launchPersistentContext(folder, {
        ...launchOptions,
        ...(baseURL !== undefined && { baseURL }),
        viewport: { width: 360, height: 740 },
      });
      return context.pages()[0] ?? context.newPage();
    },
    async turnOff() {
      await running().close();
      context = null;
    },
    ask,
    atTheShop: async ({ id }) => (await ask<{ node: Item }>(itemAtTheShop, { id })).node,
    async close() {
      await context?.close();
      await line.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** The program, the sheets of all items and what is open on an aircraft are on the device. */
export async function isKept(where: Page): Promise<void> {
  // In words, because the tests' own types know no browser.
  const kept = () =>
    where.evaluate<boolean>(`(async () => {
      // To open it before the page does would make it, empty.
      if (!(await indexedDB.databases()).some(({ name }) => name === 'fairlead-bench')) return false;
      const shell = await (await caches.open('fairlead-shell')).match('/bench');
      const rows = await new Promise((resolve) => {
        const asked = indexedDB.open('fairlead-bench');
        asked.onsuccess = () => {
          const keys = asked.result.transaction('kept').objectStore('kept').getAllKeys();
          asked.result.close();
          keys.onsuccess = () => resolve(keys.result.map((key) => JSON.parse(key)[0]));
        };
      });
      const care = ['torqueChoices', 'openOnOrder'].every((wanted) => rows.includes(wanted));
      return shell !== undefined && rows.length >= 4 && care;
    })()`);
  await expect.poll(kept, { timeout: 30_000 }).toBe(true);
}

export const clockPart = (where: Page) => where.getByRole('region', { name: 'Your clock' });
export const unsent = (where: Page) => where.getByRole('region', { name: 'Notice' });
export const startRows = (where: Page) => where.getByRole('button', { name: /^Start: / });

export interface Started {
  id: string;
  title: string;
}
/** Starts the clock of the nth item that can be started, past its cautions. */
export async function startOn(nth: number, where: Page): Promise<Started> {
  const row = startRows(where).nth(nth);
  const sheet = row.locator('..').getByRole('link', { name: /^Sheet of/ });
  const title = ((await sheet.textContent()) ?? '').replace('Sheet of ', '');
  const id = new URL((await sheet.getAttribute('href')) ?? '', where.url()).searchParams.get(
    'item',
  );
  await row.click();
  const read = where.getByRole('button', { name: 'Read. Start the clock' });
  await expect(read.or(clockPart(where).getByText(title, { exact: true }))).toBeVisible();
  if (await read.isVisible()) await read.click();
  await expect(clockPart(where)).toContainText(title);
  return { id: id ?? '', title };
}

/** Initials every line of the item's list that has none, one by one. */
export async function initialLines(where: Page): Promise<void> {
  const lines = where.getByRole('button', { name: /^Initial line/ });
  for (let left = await lines.count(); left > 0; left -= 1) {
    await lines.first().click();
    await expect(lines).toHaveCount(left - 1);
  }
}

export interface Item {
  title: string;
  state: string;
  /** By whoever asks. */
  cautionsRead: boolean;
  events: { kind: string; workDone: string; at: string }[];
  findings: { title: string; photos: { id: string }[] }[];
  checklist: { initials: string | null }[];
  order: { openLines: { words: string; state: string; by: { name: string } }[] };
  stretches: { startedAt: string; endedAt: string | null; person: { name: string } }[];
}
const itemAtTheShop = `query($id: ID!) { node(id: $id) { ... on WorkItem { title state cautionsRead events { kind workDone at } checklist { initials } order { openLines { words state by { name } } }
  findings { title photos { id } } stretches { startedAt endedAt person { name } } } } }`;

/** The stretches of the person whose telephone it is. */
export const mine = ({ stretches }: Item) =>
  stretches.filter(({ person }) => person.name === 'Marta Quillby');

/** How much the device still holds for the shop. */
export const held = (where: Page) =>
  where.evaluate<number>(`new Promise((resolve) => {
    const asked = indexedDB.open('fairlead');
    asked.onsuccess = () => {
      const count = asked.result.transaction('outbox').objectStore('outbox').count();
      asked.result.close();
      count.onsuccess = () => resolve(count.result);
    };
  })`);
export async function everythingSent(where: Page): Promise<void> {
  await expect.poll(() => held(where), { timeout: 30_000 }).toBe(0);
  await expect(where.getByText(/not sent yet|cannot be reached/)).toHaveCount(0);
}
