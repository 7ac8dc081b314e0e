import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import type { Answer, TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';

/** What a mutation said: the payload's own fields, or the refusal's. */
export interface Said {
  __typename: string;
  code?: string;
  message?: string;
  field?: string | null;
  [field: string]: unknown;
}

export const refusal = '__typename ... on Refusal { code message field }';

/** A shop for tests of its settings, with short ways to say things. */
export async function settingsShop(api: TestApi) {
  const shop = await makeShop(api);
  const say = async (
    mutation: string,
    type: string,
    input: Record<string, unknown>,
    answer: string,
    role: Role | null = 'manager',
  ): Promise<Said> => {
    const given = await shop.as<Record<string, Said>>(
      role,
      `mutation($input: ${type}!) { ${mutation}(input: $input) { ${refusal} ${answer} } }`,
      { input },
    );
    return payloadOf(given, mutation);
  };
  const version = async (role: Role) =>
    (
      await shop.inside((tx) =>
        tx.person.findUniqueOrThrow({ where: { id: shop.people[role].id } }),
      )
    ).version;
  return {
    ...shop,
    say,
    version,
    person: (role: Role) => globalId('Person', shop.people[role].id),
  };
}
export type SettingsShop = Awaited<ReturnType<typeof settingsShop>>;

export function payloadOf(given: Answer<Record<string, Said>>, mutation: string): Said {
  const said = given.data?.[mutation];
  if (said) return said;
  const [error] = given.errors ?? [];
  return {
    __typename: 'Error',
    code: error?.extensions.code ?? '',
    message: error?.message ?? `answered ${given.status}`,
  };
}

export const shopInput = (over: Record<string, unknown> = {}) => ({
  expectedVersion: 1,
  name: 'Test Shop',
  place: 'Nowhere Strand',
  timeZone: 'UTC',
  currency: 'USD',
  standing: 'mechanics',
  clearanceMm: 1500,
  billingStep: '0.25',
  billingRounding: 'nearest',
  timeInServiceBasis: 'tachometer',
  ...over,
});

/** The sheet, as the manager reads it. */
export interface Sheet {
  shop: { version: number; name: string };
  currencyStays: string | null;
  lastChange: { at: string; by: string | null } | null;
  people: {
    person: { id: string; name: string; version: number; active: boolean };
    signIn: { email: string; invitedUntil: string | null } | null;
    certificates: { certificate: { id: string; kind: string }; restsOnIt: string[] }[];
    clockRuns: boolean;
    lastChange: { by: string | null } | null;
  }[];
  labourRates: { rate: { id: string; kind: string; rate: string; validFrom: string } }[];
  week: { personId: string | null; weekday: number; fromMinute: number; toMinute: number }[];
  exceptions: { id: string; personId: string | null; firstDay: string }[];
  ahead: {
    day: string;
    closed: string | null;
    present: { name: string; minutes: number }[];
    away: { name: string; reason: string }[];
  }[];
  changes: { at: string; by: string; about: string | null; words: string }[];
  today: string;
}

export async function sheetOf(shop: TestShop): Promise<Sheet> {
  const { data, errors } = await shop.as<{ shopSheet: Sheet & Said }>(
    'manager',
    `{ shopSheet { __typename ... on Refusal { message } ... on ShopSheet {
      shop { version name } currencyStays today lastChange { at by }
      people { person { id name version active } signIn { email invitedUntil } clockRuns lastChange { by }
        certificates { certificate { id kind } restsOnIt } }
      labourRates { rate { id kind rate validFrom } lastChange { by } } taxRates { rate { id category rate } lastChange { by } }
      week { personId weekday fromMinute toMinute } exceptions { id personId firstDay }
      ahead { day closed present { name minutes } away { name reason } }
      changes { id at by about words } } } }`,
  );
  if (!data) throw new Error(errors?.[0]?.message ?? 'no answer');
  return data.shopSheet;
}
