import type { Capacity, CertificateKind, Prisma, Role, Tx } from '@fairlead/database';
import { currency, parseAmount } from '@fairlead/money';
import {
  type DemoContacts,
  type DemoPerson,
  type DemoPostalAddress,
  type DemoRates,
  readDemo,
} from '../../../../prisma/demo/data.ts';
import type { DemoClock } from './demo-clock.ts';
import { Keys } from './keys.ts';

/** The roles of the demo's people, as the program knows them. An apprentice is a mechanic under supervision. */
export const rolesOf = ({ roles }: DemoPerson): Role[] =>
  roles.map((role) =>
    role === 'front-desk' ? 'front_desk' : role === 'apprentice' ? 'mechanic' : (role as Role),
  );

/** The shop itself, its people with their certificates, and its own rates and taxes. */
export async function layOutShop(tx: Tx, shopId: string, clock: DemoClock): Promise<Keys> {
  const shop = readDemo('shop.json');
  await tx.shop.create({
    data: {
      id: shopId,
      name: shop.name,
      place: shop.address.join(', '),
      email: shop.email,
      ...columnsOf(shop.postalAddress),
      ...shop.registrations,
      timeZone: shop.timeZone,
      currency: shop.currency,
      standing: 'mechanics',
      clearanceMm: readDemo('hangar.json').clearanceM.besideAircraft * 1000,
      billingStep: shop.labourBilling.roundingHours,
      billingRounding: 'up',
      timeInServiceBasis: shop.timeInServiceBasis,
    },
  });
  await layOutHours(tx, shopId, shop.hours);
  const { numbersGiven } = shop;
  for (const [kind, given] of Object.entries(numbersGiven))
    await tx.$queryRaw`SELECT max(take_number(${kind})) FROM generate_series(1, ${given}::int)`;

  const people = new Keys();
  const demoPeople = readDemo('people.json');
  await tx.person.createMany({
    data: demoPeople.map((person) => ({
      id: people.make(person.key),
      shopId,
      name: person.name,
      initials: person.initials,
      roles: rolesOf(person),
      apprentice: person.roles.includes('apprentice'),
    })),
  });
  await tx.certificate.createMany({
    data: demoPeople.flatMap((person) =>
      certificatesOf(person, clock).map((certificate) => ({
        ...certificate,
        personId: people.of(person.key),
      })),
    ),
  });
  await layOutQualifications(tx, people, clock);
  await layOutRates(tx, shopId, readDemo('rates.json'), clock);
  await layOutPriceLists(tx, readDemo('rates.json'), people, clock);
  return people;
}

function certificatesOf(
  person: DemoPerson,
  clock: DemoClock,
): Omit<Prisma.CertificateCreateManyInput, 'personId'>[] {
  return person.certificates.flatMap(({ kind, number, ratings, issued, expires }) => {
    const kinds: CertificateKind[] =
      kind === 'mechanic'
        ? ratings.map((rating) => `mechanic_${rating}` as CertificateKind)
        : kind === 'inspection-authorization'
          ? ['inspection_authorization']
          : ratings.includes('private')
            ? ['private_pilot']
            : [];
    const validUntil = expires ? nextOddYear(clock.day({ day: 0 }), expires.nextOddYear) : null;
    return kinds.map((of) => ({ kind: of, number, validFrom: clock.day(issued), validUntil }));
  });
}

const workOf: Partial<Record<CertificateKind, string[]>> = {
  mechanic_airframe: ['minor_work_airframe', 'hundred_hour_airframe'],
  mechanic_powerplant: ['minor_work_powerplant', 'hundred_hour_powerplant'],
  inspection_authorization: ['annual_inspection'],
};

/** What the signatures of the demo's people rest on besides their certificates, as their manager entered it. */
async function layOutQualifications(tx: Tx, people: Keys, clock: DemoClock): Promise<void> {
  const all = readDemo('people.json');
  const manager = all.find(({ roles }) => roles.includes('manager'));
  if (!manager) throw new RangeError('Nobody in the demo is a manager');
  const byId = people.of(manager.key);
  await tx.qualification.createMany({
    data: all.flatMap((person): Prisma.QualificationCreateManyInput[] => {
      const held = certificatesOf(person, clock);
      const [first] = held.filter(({ kind }) => kind in workOf);
      if (!first) return [];
      const stated = { byId, personId: people.of(person.key), validFrom: first.validFrom };
      return [
        ...held.flatMap(({ kind }) =>
          (workOf[kind] ?? []).map((subject) => ({
            ...{ ...stated, kind: 'work_done' as const, subject },
            paper: 'Own log of work done, seen by the manager',
          })),
        ),
        { ...stated, kind: 'served', paper: 'Employment records of the shop' },
        ...(held.some(({ kind }) => kind === 'inspection_authorization')
          ? [-620, -420, -200, -30].map((day) => ({
              ...{ ...stated, kind: 'inspection_activity' as const },
              validFrom: clock.day({ day }),
              paper: 'Refresher course of 8 hours, certificate of attendance',
            }))
          : []),
      ];
    }),
  });
}

/** The next such day of an odd year, today included: 31 March, where inspection authorizations end (14 CFR 65.92). */
function nextOddYear(today: Date, monthDay: string): Date {
  for (let year = today.getUTCFullYear(); ; year += 1) {
    const end = new Date(`${year}-${monthDay}T00:00:00Z`);
    if (year % 2 === 1 && end >= today) return end;
  }
}

/** When the shop is open. Nobody has a week of their own yet, so everybody is here when it is. */
async function layOutHours(
  tx: Tx,
  shopId: string,
  { opens, closes, days }: { opens: string; closes: string; days: string[] },
): Promise<void> {
  const order = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];
  const minute = (time: string) => {
    const [hour = 0, minutes = 0] = time.split(':').map(Number);
    return hour * 60 + minutes;
  };
  await tx.weeklyHours.createMany({
    data: days.map((day) => ({
      shopId,
      weekday: order.indexOf(day) + 1,
      fromMinute: minute(opens),
      toMinute: minute(closes),
    })),
  });
}

/** What the program calls a mechanic's hour, the file calls shop labour; outside work is not sold yet. */
async function layOutRates(
  tx: Tx,
  shopId: string,
  rates: DemoRates,
  clock: DemoClock,
): Promise<void> {
  await tx.labourRate.createMany({
    data: rates.labour.map(({ key, perHour, from }) => ({
      shopId,
      kind: key === 'shop' ? 'mechanic' : key,
      rate: perHour,
      validFrom: clock.day(from),
    })),
  });
  const taxes = { labour: 'labour', parts: 'parts', supplies: 'parts' } as const;
  await tx.taxRate.createMany({
    data: Object.entries(taxes).flatMap(([category, key]) =>
      rates.tax
        .filter((tax) => tax.key === key)
        .map(({ percent, from }) => ({
          shopId,
          category: category as keyof typeof taxes,
          code: 'S',
          rate: percent,
          validFrom: clock.day(from),
        })),
    ),
  });
}

/** Kinds of work, mark-up bands and the rule for shop supplies. */
async function layOutPriceLists(
  tx: Tx,
  { currency: code, kindsOfWork, markUp, supplies }: DemoRates,
  people: Keys,
  clock: DemoClock,
): Promise<void> {
  await tx.workKind.createMany({ data: kindsOfWork.map((name) => ({ name })) });
  const said = ({ from, by }: { from: DemoRates['markUp']['from']; by: string }) => ({
    validFrom: clock.day(from),
    at: clock.at({ ...from, time: '09:00' }),
    byId: people.of(by),
  });
  const { id: listId } = await tx.markUpList.create({ data: said(markUp), select: { id: true } });
  await tx.markUpBand.createMany({ data: markUp.bands.map((band) => ({ ...band, listId })) });
  const { percent, cap } = supplies;
  await tx.suppliesRule.create({
    data: { ...said(supplies), percent, capMinor: parseAmount(cap, currency(code)) },
    select: { id: true },
  });
}

/** Owners, operators and payers, and how much each may authorise for which aircraft. */
export async function layOutContacts(
  tx: Tx,
  shopId: string,
  aircraft: Keys,
  clock: DemoClock,
): Promise<Keys> {
  const { contacts, authorities } = readDemo('contacts.json');
  const money = currency(readDemo('shop.json').currency);
  const keys = new Keys();
  await tx.contact.createMany({
    data: contacts.map((contact) => ({
      id: keys.make(contact.key),
      shopId,
      name: contact.name,
      email: contact.email,
      phone: contact.phone,
      address: addressOf(contact, contacts),
      ...columnsOf(contact.postalAddress ?? houseOf(contact.of, contacts)?.postalAddress),
    })),
  });
  await tx.aircraftContact.createMany({
    data: authorities.flatMap(({ aircraft: tail, contact, roles, mayAuthorise, upTo }) =>
      roles.map((role) => ({
        aircraftId: aircraft.of(tail),
        contactId: keys.of(contact),
        capacity: role as Capacity,
        mayAuthoriseMinor: mayAuthorise === 'any' ? null : parseAmount(upTo ?? '0', money),
        since: clock.day({ day: -850 }),
      })),
    ),
  });
  return keys;
}

const houseOf = (of: string | undefined, all: DemoContacts['contacts']) =>
  all.find(({ key }) => key === of);

const columnsOf = (address: DemoPostalAddress | undefined) =>
  address && {
    addressLine1: address.line1,
    city: address.city,
    postcode: address.postcode,
    country: address.country,
  };

/** Whoever has no address of their own is reached at their organisation's. */
function addressOf(
  { address, of }: DemoContacts['contacts'][number],
  all: DemoContacts['contacts'],
): string | null {
  const house = houseOf(of, all);
  const lines = address ?? (house ? [house.name, ...(house.address ?? [])] : []);
  return lines.length > 0 ? lines.join(', ') : null;
}
