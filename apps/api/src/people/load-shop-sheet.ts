import type { Prisma } from '@fairlead/database';
import { allow, type Context } from '../context.ts';
import { shopToday } from '../today.ts';
import { type LastChange, lastChanges, latestChanges, type SettingsChange } from './changes.ts';
import { type DayPresence, presenceAhead } from './queries.ts';
import { restsOn } from './rests-on.ts';

type Shop = Prisma.ShopGetPayload<object>;
type Person = Prisma.PersonGetPayload<object>;
type Certificate = Prisma.CertificateGetPayload<object>;

export interface SignInStanding {
  email: string;
  /** Null: they sign in; else until when the invitation may be used. */
  invitedUntil: Date | null;
}
export interface CertificateOnSheet {
  row: Certificate;
  restsOnIt: string[];
}
export interface PersonOnSheet {
  row: Person;
  certificates: CertificateOnSheet[];
  signIn: SignInStanding | null;
  clockRuns: boolean;
  lastChange: LastChange | null;
}
export interface RateOnSheet<T> {
  row: T;
  lastChange: LastChange | null;
}
export interface ShopSheet {
  shop: Shop;
  /** Why the currency stays; null where it may still change. */
  currencyStays: string | null;
  lastChange: LastChange | null;
  people: PersonOnSheet[];
  labourRates: RateOnSheet<Prisma.LabourRateGetPayload<object>>[];
  taxRates: RateOnSheet<Prisma.TaxRateGetPayload<object>>[];
  week: Prisma.WeeklyHoursGetPayload<object>[];
  exceptions: Prisma.DayExceptionGetPayload<object>[];
  ahead: DayPresence[];
  changes: SettingsChange[];
  today: Date;
}

const AHEAD_DAYS = 14;
const CHANGES = 40;
const newestFirst = [{ validFrom: 'desc' as const }, { id: 'desc' as const }];

/** Everything on the manager's sheet of the shop. */
export async function loadShopSheet(context: Context): Promise<ShopSheet> {
  await allow(context, 'manager');
  const { read } = context;
  const today = await shopToday(context);
  const shop = await read.shop.findFirstOrThrow();
  const quoted = await read.quoteRevision.findFirst({ select: { id: true } });
  const people = await read.person.findMany({
    orderBy: [{ active: 'desc' }, { name: 'asc' }],
    include: {
      certificates: { orderBy: [{ kind: 'asc' }, { validFrom: 'desc' }] },
      stretches: { where: { endedAt: null }, select: { id: true } },
    },
  });
  const signIns = await read.$queryRaw<
    (SignInStanding & { personId: string })[]
  >`SELECT person_id AS "personId", email, invited_until AS "invitedUntil" FROM sign_ins()`;
  const last = await lastChanges(read);
  const changed = <T extends { id: string }>(row: T) => ({
    row,
    lastChange: last.get(row.id) ?? null,
  });
  return {
    shop,
    currencyStays: quoted ? `It stays ${shop.currency}: amounts were quoted in it.` : null,
    lastChange: last.get(shop.id) ?? null,
    people: people.map(({ certificates, stretches, ...row }) => ({
      row,
      certificates: certificates.map((certificate) => ({
        row: certificate,
        restsOnIt: restsOn(certificate.id, { ...row, certificates }, today),
      })),
      signIn: signIns.find(({ personId }) => personId === row.id) ?? null,
      clockRuns: stretches.length > 0,
      lastChange: last.get(row.id) ?? null,
    })),
    labourRates: (
      await read.labourRate.findMany({ orderBy: [{ kind: 'asc' }, ...newestFirst] })
    ).map(changed),
    taxRates: (await read.taxRate.findMany({ orderBy: [{ category: 'asc' }, ...newestFirst] })).map(
      changed,
    ),
    week: await read.weeklyHours.findMany({ orderBy: [{ weekday: 'asc' }, { fromMinute: 'asc' }] }),
    exceptions: await read.dayException.findMany({
      where: { lastDay: { gte: today } },
      orderBy: [{ firstDay: 'asc' }, { id: 'asc' }],
    }),
    ahead: await presenceAhead(read, today, AHEAD_DAYS),
    changes: await latestChanges(read, CHANGES),
    today,
  };
}
