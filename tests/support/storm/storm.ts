import { randomUUID } from 'node:crypto';
import { globalId } from '@fairlead/api/ids';
import { startApi, type TestApi } from '../api.ts';
import { makeShop, makeTask, type TestShop } from '../shop.ts';
import { signedIn } from '../signed-in.ts';
import { type Act, actsOf, diceOf, idOf, truthOf } from './acts.ts';
import { type Fate, fates, Line, pause } from './line.ts';
import { type Counted, Phone } from './phone.ts';
import { type MortalServer, startMortalServer } from './server.ts';

const HOUR_MS = 3_600_000;
/** About as long as the server is away after it was killed: the telephones are at it until all harm was done. */
const HARM_MS = 4000;

export interface StormSize {
  seed: number;
  phones: number;
  /** Of all telephones together. */
  events: number;
  /** How often the server is killed, and how often the database drops its connections. */
  kills: number;
  drops: number;
  /** Telephones that are lost half way. */
  losses: number;
}

/** What a storm left behind, beside what really happened. */
export interface Aftermath {
  shop: TestShop;
  api: TestApi;
  server: MortalServer;
  people: { id: string; acts: Act[]; phones: Phone[] }[];
  itemIds: string[];
  figures: Figures;
}
export interface Figures extends Omit<Counted, 'refused'> {
  seed: number;
  phones: number;
  events: number;
  acknowledged: number;
  seconds: number;
  kills: number;
  dropped: number;
  requests: Record<Fate, number>;
}

/**
 * Has many people note what they do on telephones, over lines that break, to a server that is killed and a database that
 * ends connections; goes on until every telephone that was not lost has nothing left to send.
 */
export async function storm(size: StormSize): Promise<Aftermath> {
  const api = await startApi();
  const server = await startMortalServer(api);
  try {
    return await blow(size, api, server);
  } catch (error) {
    await clearUp({ api, server });
    throw error;
  }
}

async function blow(
  { seed, phones: count, events, kills, drops, losses }: StormSize,
  api: TestApi,
  server: MortalServer,
): Promise<Aftermath> {
  const dice = diceOf(seed);
  const shop = await makeShop(api);
  const { orderId, itemIds } = await openOrder(shop, 12);
  const items = itemIds.map((id) => globalId('WorkItem', id));
  // The last day or so, up to a minute ago: nothing is noted later than the shop is told of it.
  const to = Date.now() - 60_000;
  const from = to - 20 * HOUR_MS;

  const people: Aftermath['people'] = [];
  const lines: Line[] = [];
  for (let made = 0; made < count; ) {
    const own = made + 2 <= count && dice.chance(0.15) ? 2 : 1;
    const id = await addPerson(shop, people.length);
    const cookie = await signedIn(api, {
      shopId: shop.shopId,
      personId: id,
      email: `${randomUUID()}@strand.example`,
    });
    const acts = actsOf(dice, {
      name: `${seed} ${people.length}`,
      count: Math.round((events / count) * own),
      items,
      phones: own,
      from,
      to,
    });
    const phones = Array.from({ length: own }, (_, phone) => {
      const seedOfIts = dice.below(2 ** 31);
      const line = new Line({ dice: diceOf(seedOfIts), port: server.port, cookie, trouble: 0.3 });
      lines.push(line);
      return new Phone({
        id: idOf(seed, people.length, 'phone', phone),
        personId: globalId('Person', id),
        orderId: globalId('WorkOrder', orderId),
        dice: diceOf(seedOfIts + 1),
        line,
        acts: acts.filter((act) => act.phone === phone),
        paceMs: (HARM_MS * (kills + drops)) / (events / count),
        hasLocks: dice.chance(0.8),
      });
    });
    people.push({ id, acts, phones });
    made += own;
  }

  const began = performance.now();
  const all = people.flatMap(({ phones }) => phones);
  let living = all.length;
  const lives = all.map((phone, index) =>
    phone.live({ losesItself: index < losses }).finally(() => {
      living -= 1;
    }),
  );
  const harm = hurt(server, dice, { kills, drops, goesOn: () => living > 0 });
  const [, dropped] = await Promise.race([
    Promise.all([calm(lines, harm), harm, ...lives]),
    server.falls,
  ]).catch((error: unknown) => {
    for (const phone of all) phone.lose();
    throw error;
  });
  const counted = all.map((phone) => phone.counted);
  const sum = (of: keyof Omit<Counted, 'refused'>) =>
    counted.reduce((total, each) => total + each[of], 0);
  return {
    shop,
    api,
    server,
    people,
    itemIds,
    figures: {
      seed,
      phones: all.length,
      events: people.reduce((total, { acts }) => total + acts.length, 0),
      acknowledged: all.reduce((total, { acknowledged }) => total + acknowledged.size, 0),
      seconds: (performance.now() - began) / 1000,
      kills,
      dropped,
      requests: Object.fromEntries(
        fates.map((fate) => [fate, lines.reduce((n, { met }) => n + (met.get(fate) ?? 0), 0)]),
      ) as Record<Fate, number>,
      sent: sum('sent'),
      again: sum('again'),
      reloads: sum('reloads'),
      twoTabs: sum('twoTabs'),
      storageFull: sum('storageFull'),
      clockSet: sum('clockSet'),
    },
  };
}

/** Kills the server and drops the database's connections by turns, and answers how many connections were dropped. */
async function hurt(
  server: MortalServer,
  dice: ReturnType<typeof diceOf>,
  { kills, drops, goesOn }: { kills: number; drops: number; goesOn: () => boolean },
): Promise<number> {
  let dropped = 0;
  const harms = [
    ...Array.from({ length: kills }, () => 'kill' as const),
    ...Array.from({ length: drops }, () => 'drop' as const),
  ].toSorted(() => dice.next() - 0.5);
  for (const harm of harms) {
    await pause(200 + dice.below(1200));
    if (!goesOn()) throw new Error('The storm was over before all its harm was done: more events');
    if (harm === 'kill') await server.killAndRestart();
    else dropped += await server.dropConnections();
  }
  return dropped;
}

/** After the harm the weather clears: what is still on a telephone gets through. */
async function calm(lines: readonly Line[], harm: Promise<unknown>): Promise<void> {
  await harm;
  await pause(500);
  for (const line of lines) line.trouble = 0.05;
}

const addPerson = (shop: TestShop, number: number) =>
  shop.inside(async (tx) => {
    const { id } = await tx.person.create({
      data: {
        shopId: shop.shopId,
        name: `Storm ${number}`,
        initials: `S${number}`,
        roles: ['mechanic'],
      },
    });
    return id;
  });

async function openOrder(shop: TestShop, count: number) {
  const task = await makeTask(shop);
  return shop.inside(async (tx) => {
    const { id: orderId } = await tx.workOrder.create({
      data: { aircraftId: shop.aircraftId, title: 'Storm' },
    });
    await tx.orderEvent.create({
      data: { orderId, kind: 'arrived', at: new Date(Date.now() - 40 * HOUR_MS) },
    });
    const itemIds: string[] = [];
    for (let position = 1; position <= count; position += 1) {
      const { id } = await tx.workItem.create({
        data: {
          orderId,
          position,
          taskId: task.id,
          title: `Storm item ${position}`,
          jasc: '7810',
          cautions: [],
        },
      });
      itemIds.push(id);
    }
    return { orderId, itemIds };
  });
}

/** Ends what a storm started. */
export async function clearUp({ api, server }: Pick<Aftermath, 'api' | 'server'>): Promise<void> {
  await server.stop();
  await api.stop();
}

export { truthOf };
