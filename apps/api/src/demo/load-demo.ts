import { readFileSync } from 'node:fs';
import { type Client, createClient, inShop, type Tx } from '@fairlead/database';
import { rolePool } from '@fairlead/database/role-pool';
import { roles } from '@fairlead/database/roles';
import { readDemo } from '../../../../prisma/demo/data.ts';
import { addHistoryRows } from '../hindsight/history-rows.ts';
import { fitWithin } from '../hindsight/index.ts';
import { readHistoryFile } from '../hindsight/read-history-file.ts';
import { holdFor } from '../hold.ts';
import { newId } from '../new-id.ts';
import { createAccount } from '../people/create-account.ts';
import { addPhoto, keepPicture } from '../work/photo-files.ts';
import type { Picture } from '../work/picture.ts';
import { clockActs, itemActs } from './bench-story.ts';
import { careActs, toolActs } from './care-story.ts';
import { type DemoClock, demoClock } from './demo-clock.ts';
import { directiveActs } from './directive-story.ts';
import { findingActs } from './finding-story.ts';
import { floorActs } from './floor-story.ts';
import { keepMails } from './keep-mails.ts';
import { Keys } from './keys.ts';
import { layOutCatalogue } from './lay-out-catalogue.ts';
import { layOutFleet } from './lay-out-fleet.ts';
import { layOutHangar } from './lay-out-hangar.ts';
import { layOutContacts, layOutShop } from './lay-out-people.ts';
import { play } from './play.ts';
import { programmeActs } from './programme-story.ts';
import { endActs } from './sign-story.ts';
import { arrivalActs, type Props, quoteActs } from './story.ts';
import { tellFindings } from './tell-findings.ts';

/** The demo shop is always the same row, so that it is found again. */
export const DEMO_SHOP_ID = '0193f1d0-0000-7000-8000-00000000ebb5';

const LOAD_MS = 120_000;
const demoFile = (name: string) =>
  readFileSync(new URL(`../../../../prisma/demo/${name}`, import.meta.url));

export interface LoadDemoOptions {
  /** The database, as the application's account. */
  appUrl: string;
  uploadsDir: string;
  /** Day 0 of the demo is the civil day of this instant in the shop; now unless said. */
  now?: Date;
}

export interface DemoSignIn {
  role: string;
  name: string;
  email: string;
  password: string;
}

export interface LoadedDemo {
  /** False: it was there already. */
  loaded: boolean;
  signIns: DemoSignIn[];
}

/**
 * Loads the demo shop, once. The shop is there whole or not at all; when it was stopped between the shop
 * and the accounts of its people, the next call makes those that are missing.
 */
export async function loadDemo({
  appUrl,
  uploadsDir,
  now = new Date(),
}: LoadDemoOptions): Promise<LoadedDemo> {
  const client = createClient({ url: appUrl, poolSize: 3 });
  try {
    const there = await inDemo(client, (tx) => tx.shop.count());
    const loaded = there === 0 && (await load(client, uploadsDir, now));
    await makeAccounts(client, appUrl);
    return { loaded, signIns: signIns() };
  } finally {
    await client.$disconnect();
  }
}

const inDemo = <T>(client: Client, work: (tx: Tx) => Promise<T>) =>
  inShop(client, { shopId: DEMO_SHOP_ID, personId: null, requestId: newId() }, work, {
    timeoutMs: LOAD_MS,
  });

async function load(client: Client, uploadsDir: string, now: Date): Promise<boolean> {
  // Before the transaction, which waits for no file. A picture kept twice is one file.
  const pictures = await keepPictures(uploadsDir);
  return inDemo(client, async (tx) => {
    await holdFor(tx, 'demo', DEMO_SHOP_ID);
    if ((await tx.shop.count()) > 0) return false;
    await fill(tx, {
      clock: demoClock(now, readDemo('shop.json').timeZone),
      now,
      uploadsDir,
      pictures,
    });
    return true;
  });
}

interface Filling {
  clock: DemoClock;
  now: Date;
  uploadsDir: string;
  pictures: Map<string, Picture>;
}

/** Lays out what the shop has, takes in its history, and lets its people live through the days before today. */
async function fill(tx: Tx, { clock, now, uploadsDir, pictures }: Filling): Promise<void> {
  const shopId = DEMO_SHOP_ID;
  const people = await layOutShop(tx, shopId, clock);
  const fleet = await layOutFleet(tx, shopId, clock);
  const contacts = await layOutContacts(tx, shopId, fleet.aircraft, clock);
  const catalogue = await layOutCatalogue(tx, shopId, fleet.models, people, clock);
  await tellFindings(tx, { ...catalogue, models: fleet.models, people }, clock);
  const stands = await layOutHangar(tx, shopId);
  await takeHistory(tx, now);
  // Fitted before the story begins: its quotes were made by it.
  await fitWithin(tx, clock.at({ day: -30, time: '06:00' }));

  const { quotes, orders } = readDemo('orders.json');
  const photos = new Keys();
  for (const photo of orders
    .flatMap(({ findings }) => findings)
    .flatMap((finding) => finding.photos)) {
    const picture = pictures.get(photo.file);
    if (!picture) continue;
    const id = newId();
    await addPhoto(tx, shopId, {
      id,
      picture,
      words: photo.caption,
      addedById: people.of(photo.by),
    });
    photos.set(photo.file, id);
  }
  const props: Props = {
    clock,
    people,
    contacts,
    stands,
    photos,
    ...fleet,
    ...catalogue,
    quotes: new Keys(),
    orders: new Keys(),
    items: new Keys(),
    findings: new Keys(),
    invoices: new Keys(),
    tools: new Keys(),
  };
  await play({ tx, shopId, people, uploadsDir }, [
    ...quotes.flatMap((quote) => quoteActs(quote, props)),
    ...floorActs(orders, props),
    ...programmeActs(props),
    ...directiveActs(props),
    ...toolActs(props),
    ...careActs(props),
    ...clockActs(orders, props),
    ...orders.flatMap((order) => [
      ...arrivalActs(order, props),
      ...itemActs(order, props),
      ...endActs(order, props),
      ...order.findings.flatMap((finding) => findingActs(order, finding, props)),
    ]),
  ]);
  await keepMails(tx);
}

async function keepPictures(uploadsDir: string): Promise<Map<string, Picture>> {
  const names = new Set(
    readDemo('orders.json')
      .orders.flatMap(({ findings }) => findings)
      .flatMap(({ photos }) => photos.map(({ file }) => file)),
  );
  const kept = await Promise.all(
    [...names].map(
      async (name) =>
        [name, await keepPicture(uploadsDir, DEMO_SHOP_ID, demoFile(`pictures/${name}`))] as const,
    ),
  );
  return new Map(kept);
}

/** Through the importer that a shop's own file goes through, so that its rows are known again. */
async function takeHistory(tx: Tx, now: Date): Promise<void> {
  // The file has dates of its own: a computer whose clock is behind them still gets its demo.
  const lastDay = '2026-11-20';
  const today = now.toISOString().slice(0, 10);
  const read = readHistoryFile(
    { name: 'history.csv', bytes: demoFile('history.csv') },
    today > lastDay ? today : lastDay,
  );
  const [refused] = read.refused;
  if (refused)
    throw new RangeError(
      `The demo's history.csv, line ${refused.line}: ${refused.column} ${refused.problem}`,
    );
  await addHistoryRows(tx, { name: read.name, sha256: read.sha256, rows: read.rows });
}

/** Accounts of the people who have none yet. */
async function makeAccounts(client: Client, appUrl: string): Promise<void> {
  const people = await inDemo(client, (tx) =>
    tx.person.findMany({ select: { id: true, initials: true } }),
  );
  const pool = rolePool({ url: appUrl, role: roles.identity, max: 3 });
  const withoutAccount = async () => {
    const { rows } = await pool.query<{ person_id: string }>(
      'select person_id from identity.membership where shop_id = $1',
      [DEMO_SHOP_ID],
    );
    const have = new Set(rows.map(({ person_id }) => person_id));
    return readDemo('people.json').flatMap((person) => {
      const id = people.find(({ initials }) => initials === person.initials)?.id;
      return id === undefined || have.has(id) ? [] : [{ ...person, id }];
    });
  };
  try {
    const refused: unknown[] = [];
    await Promise.all(
      (await withoutAccount()).map(({ id, name, email, signIn }) =>
        createAccount(pool, {
          email,
          password: signIn.passphrase,
          name,
          shopId: DEMO_SHOP_ID,
          personId: id,
        }).catch((error: unknown) => refused.push(error)),
      ),
    );
    // Another start may have made the same accounts at this moment; then nobody is without one.
    if (refused.length > 0 && (await withoutAccount()).length > 0) throw refused[0];
  } finally {
    await pool.end();
  }
}

const signIns = (): DemoSignIn[] =>
  readDemo('people.json').map(({ name, email, roles: has, signIn }) => ({
    role: has.join(', ').replace('front-desk', 'front desk'),
    name,
    email,
    password: signIn.passphrase,
  }));
