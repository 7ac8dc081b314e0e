import { createHash, randomBytes, randomUUID } from 'node:crypto';
import { fitWithin } from '@fairlead/api/hindsight/index';
import { digestOfSigned, type WhatIsSigned } from '@fairlead/api/what-is-signed';
import { inShop, type Prisma, type Role, type Tx } from '@fairlead/database';
import { type Answer, ask, type TestApi } from './api.ts';
import { signedIn } from './signed-in.ts';

const DAY = new Date('2025-01-01T00:00:00Z');

/** A shop of a test's own, with one person a role, an aircraft, an owner and a stand. Never cleaned up. */
export interface TestShop {
  shopId: string;
  people: Record<Role, { id: string; email: string }>;
  modelId: string;
  aircraftId: string;
  contactId: string;
  standId: string;
  bookId: string;
  /** Rows written as the application, inside this shop. */
  inside<T>(work: (tx: Tx) => Promise<T>): Promise<T>;
  /** One request as the person with this role; null as nobody. */
  as<T = Record<string, unknown>>(
    role: Role | null,
    query: string,
    variables?: Record<string, unknown>,
  ): Promise<Answer<T>>;
  cookie(role: Role): Promise<string>;
  /** What the person with this role holds who said again who they are, for signing just this. */
  signAgain(role: Role, what: WhatIsSigned): Promise<string>;
}

const roles: Role[] = ['front_desk', 'mechanic', 'inspector', 'manager'];

/** Makes a shop inside the API's database. Accounts are made when a role first asks for something. */
export async function makeShop(
  api: TestApi,
  over: Partial<Prisma.ShopUncheckedCreateInput> = {},
): Promise<TestShop> {
  const shopId = randomUUID();
  const inside = <T>(work: (tx: Tx) => Promise<T>) =>
    inShop(api.client, { shopId, personId: null, requestId: randomUUID() }, work);

  const made = await inside(async (tx) => {
    await tx.shop.create({
      data: {
        id: shopId,
        name: 'Test Shop',
        place: 'Nowhere Strand',
        timeZone: 'UTC',
        currency: 'USD',
        timeInServiceBasis: 'tachometer',
        ...over,
      },
    });
    const ids = {} as Record<Role, string>;
    for (const role of roles) {
      const person = await tx.person.create({
        data: {
          shopId,
          name: `Test ${role}`,
          initials: role.slice(0, 2).toUpperCase(),
          roles: [role],
        },
      });
      ids[role] = person.id;
    }
    await tx.certificate.createMany({
      data: (['mechanic_airframe', 'mechanic_powerplant', 'inspection_authorization'] as const).map(
        (kind) => ({
          personId: ids.inspector,
          kind,
          number: 'T-1001',
          validFrom: DAY,
          validUntil: kind === 'inspection_authorization' ? new Date('2099-03-31') : null,
        }),
      ),
    });
    await qualify(tx, ids.inspector);
    const model = await tx.aircraftModel.create({
      data: {
        shopId,
        maker: 'Testmaker',
        name: 'T-2',
        kind: 'helicopter_two_seat',
        lengthMm: 6500,
        spanMm: 7700,
        heightMm: 2700,
        parkedLengthMm: 8800,
        parkedWidthMm: 2100,
      },
    });
    const aircraft = await tx.aircraft.create({
      data: {
        shopId,
        modelId: model.id,
        registration: `QQ-${shopId.slice(0, 4).toUpperCase()}`,
        serial: '0001',
      },
    });
    const contact = await tx.contact.create({
      data: { shopId, name: 'Test Owner', email: 'owner@strand.example' },
    });
    await tx.aircraftContact.create({
      data: { aircraftId: aircraft.id, contactId: contact.id, capacity: 'owner', since: DAY },
    });
    const book = await tx.recordBook.create({
      data: { aircraftId: aircraft.id, kind: 'airframe', title: 'Airframe' },
    });
    const hangar = await tx.hangar.create({
      data: {
        shopId,
        name: 'Test hangar',
        widthMm: 30_000,
        depthMm: 25_000,
        doorFromMm: 5000,
        doorWidthMm: 18_000,
      },
    });
    const stand = await tx.stand.create({
      data: {
        hangarId: hangar.id,
        name: '1',
        xMm: 1000,
        yMm: 1000,
        widthMm: 12_000,
        depthMm: 12_000,
      },
    });
    await tx.labourRate.create({ data: { shopId, kind: 'mechanic', rate: '95', validFrom: DAY } });
    await tx.taxRate.createMany({
      data: (['labour', 'parts', 'supplies'] as const).map((category) => ({
        shopId,
        category,
        code: 'S',
        rate: category === 'labour' ? '0' : '7',
        validFrom: DAY,
      })),
    });
    return {
      ids,
      modelId: model.id,
      aircraftId: aircraft.id,
      contactId: contact.id,
      bookId: book.id,
      standId: stand.id,
    };
  });

  const people = Object.fromEntries(
    roles.map((role) => [role, { id: made.ids[role], email: `${role}-${shopId}@strand.example` }]),
  ) as TestShop['people'];
  const cookies = new Map<Role, Promise<string>>();
  const cookie = (role: Role) => {
    const { id: personId, email } = people[role];
    const known = cookies.get(role) ?? signedIn(api, { shopId, personId, email });
    cookies.set(role, known);
    return known;
  };
  return {
    shopId,
    people,
    modelId: made.modelId,
    aircraftId: made.aircraftId,
    contactId: made.contactId,
    standId: made.standId,
    bookId: made.bookId,
    inside,
    cookie,
    async signAgain(role, what) {
      await cookie(role);
      const again = randomBytes(32).toString('base64url');
      await api.identity.query(
        `insert into identity.sign_again (account_id, token, what, expires_at)
         select id, $2, $3, now() + interval '5 minutes' from identity.account where email = $1`,
        [
          people[role].email,
          createHash('sha256').update(again).digest('hex'),
          digestOfSigned(what),
        ],
      );
      return again;
    },
    as: async (role, query, variables) =>
      ask(api.origin, query, variables, role ? await cookie(role) : ''),
  };
}

/** What a signature rests on besides certificates: the work done before, service, and what an inspection authorization asks. */
async function qualify(tx: Tx, personId: string): Promise<void> {
  const works = ['minor_work', 'hundred_hour'].flatMap((kind) => [
    `${kind}_airframe`,
    `${kind}_powerplant`,
  ]);
  const stated = { personId, byId: personId, paper: 'Test log, page 1', validFrom: DAY };
  await tx.qualification.createMany({
    data: [
      ...[...works, 'annual_inspection'].map((subject) => ({
        ...{ ...stated, kind: 'work_done' as const, subject },
      })),
      { ...stated, kind: 'served' },
      // A course of 65.93(a)(4) in each year of the tests.
      ...['2025-05-02', '2026-02-02', '2027-05-02', '2029-05-02'].map((day) => ({
        ...{ ...stated, kind: 'inspection_activity' as const, validFrom: new Date(day) },
      })),
    ],
  });
}

/** A task of the shop, with a standard time. */
export function makeTask(shop: TestShop, over: Partial<Prisma.TaskUncheckedCreateInput> = {}) {
  return shop.inside((tx) =>
    tx.task.create({
      data: {
        shopId: shop.shopId,
        key: `task-${randomUUID().slice(0, 8)}`,
        title: 'Test task',
        jasc: '7810',
        standardHours: '2',
        ...over,
      },
    }),
  );
}

/** Has the shop learn from what it has clocked, as the worker would. */
export const learn = (shop: TestShop) => shop.inside((tx) => fitWithin(tx, new Date()));

/** Past jobs of a task, as a history file would bring them. */
export async function addJobs(
  shop: TestShop,
  task: string,
  hours: readonly number[],
  over: {
    mechanic?: string;
    model?: string;
    registration?: string;
    on?: Date;
    access?: Omit<Prisma.AccessUncheckedCreateInput, 'shopId'>;
  } = {},
): Promise<void> {
  const sha256 = (text: string) => createHash('sha256').update(text).digest('hex');
  await shop.inside(async (tx) => {
    const { id: importId } = await tx.historyImport.create({
      data: {
        shopId: shop.shopId,
        fileName: 'past.csv',
        fileSha256: sha256(randomUUID()),
        rows: hours.length,
      },
    });
    const access = over.access
      ? await tx.access.create({ data: { shopId: shop.shopId, ...over.access } })
      : null;
    await tx.historyItem.createMany({
      data: hours.map((each) => ({
        importId,
        rowHash: sha256(randomUUID()),
        completedOn: over.on ?? new Date('2026-03-01'),
        task,
        model: over.model ?? '',
        registration: over.registration ?? '',
        mechanics: over.mechanic ? [{ name: over.mechanic, share: 1 }] : [],
        hours: each,
        accessId: access?.id ?? null,
      })),
    });
  });
}
