import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import { expect } from 'vitest';
import type { TestApi } from '../../support/api.ts';
import { counted } from './counted.ts';
import { add, aircraft, record, type Said } from './flown.ts';

export const LONG = 'x'.repeat(10_000);
export const nobody = (type: string) => globalId(type, '01a2310f-0000-7000-8000-000000000000');

export type Input = Record<string, unknown>;
/** What it is, the mutation, what is sent, what is said of it, and by whom it is sent. */
export type Row = [string, string, () => Input, RegExp, Role?];
export type Place = Awaited<ReturnType<typeof placeOf>>;

/** A shop in which everything stands that nonsense can be said of: a due item that was done, one that counts, a part on the shelf, and one that is fitted. */
export async function placeOf(api: TestApi) {
  const shop = await counted(api);
  const known: Record<'hundred' | 'gear' | 'shelf' | 'fitted' | 'directive', string> = {
    ...{ hundred: '', gear: '', shelf: '', fitted: '', directive: '' },
  };
  const does = async (
    mutation: string,
    input: Input,
    role: Role = 'inspector',
  ): Promise<{ status: number; said: Said }> => {
    const type = {
      addComponent: 'AddComponentInput',
      fitComponent: 'FitComponentInput',
      removeComponent: 'RemoveComponentInput',
      recordDueEvent: 'DueEventInput',
    }[mutation];
    const { status, data, errors } = await shop.as<Record<string, Said>>(
      role,
      `mutation($input: ${type ?? `${mutation[0]?.toUpperCase()}${mutation.slice(1)}Input`}!) {
      ${mutation}(input: $input) { __typename ... on Refusal { code message } } }`,
      { input },
    );
    const [error] = errors ?? [];
    return {
      status,
      said: error
        ? { code: error.extensions.code, message: error.message }
        : (data?.[mutation] ?? {}),
    };
  };
  /** Everything that the shop has written down. */
  const written = () => shop.inside((tx) => tx.audit.count());

  const part = (over: Input = {}) => ({
    ...{ kind: 'engine', title: 'Engine', partNumber: 'E-9', serial: '1', tisHundredths: 10_000 },
    ...over,
  });
  const directive = (over: Input = {}) => ({
    ...{ kind: 'directive', authority: 'Authority', number: '2026-09-09', subject: 'Hose' },
    ...{ revisedOn: '2026-01-10', effectiveOn: '2026-02-10', method: 'Inspect, paragraph (g)' },
    ...{ rule: 'recurring', everyHundredths: 10_000, withinHundredths: 5000 },
    reaches: [{ modelId: globalId('AircraftModel', shop.modelId) }],
    ...over,
  });

  known.hundred = (await add(shop)).id ?? '';
  await record(shop, known.hundred, { doneOn: '2026-02-01', tisHundredths: 127_000 });
  known.gear =
    (await add(shop, { title: 'Gear', rule: 'recurring', everyCounts: { landings: 500 } })).id ??
    '';
  const { id: shelf } = await shop.inside((tx) =>
    tx.component.create({
      data: {
        ...{ shopId: shop.shopId, kind: 'engine', title: 'Engine', partNumber: 'E-1' },
        ...{ serial: 'S', tisHundredths: 0 },
      },
    }),
  );
  const { id: fitted } = await shop.inside((tx) =>
    tx.component.create({
      data: {
        ...{ shopId: shop.shopId, kind: 'propeller', title: 'Propeller', partNumber: 'P-1' },
        ...{ serial: 'P', tisHundredths: 0 },
      },
    }),
  );
  known.shelf = globalId('Component', shelf);
  known.fitted = globalId('Component', fitted);
  await does('fitComponent', {
    ...{ componentId: known.fitted, aircraftId: aircraft(shop), position: 'nose' },
    ...{ on: '2026-02-12', tisHundredths: 128_000, counts: { landings: 4940 } },
  });
  const { data } = await shop.as<{ addDirective: { id: string } }>(
    'inspector',
    'mutation($input: AddDirectiveInput!) { addDirective(input: $input) { ... on Directive { id } } }',
    { input: directive({ number: '2026-01-01' }) },
  );
  known.directive = data?.addDirective.id ?? '';
  const item = (over: Input = {}) => ({
    ...{ aircraftId: aircraft(shop), kind: 'inspection', title: 'Annual', source: '14 CFR 91' },
    ...{ rule: 'recurring', everyHundredths: 5000 },
    ...over,
  });
  const event = (over: Input = {}) => ({
    ...{ itemId: known.hundred, kind: 'complied', doneOn: '2026-03-01', method: 'By the list' },
    ...{ tisHundredths: 129_000 },
    ...over,
  });
  const reading = (over: Input = {}) => ({
    ...{ aircraftId: aircraft(shop), meter: 'tachometer', readingHundredths: 130_010 },
    ...over,
  });
  const fitting = (over: Input = {}) => ({
    ...{ componentId: known.shelf, aircraftId: aircraft(shop), position: 'left' },
    ...over,
  });
  const off = (over: Input = {}) => ({ componentId: known.fitted, words: 'Overhaul', ...over });
  const decide = (over: Input = {}) => ({
    ...{
      directiveId: known.directive,
      aircraftId: aircraft(shop),
      binds: true,
      reason: 'By its plate',
    },
    ...over,
  });

  return {
    shop,
    known,
    does,
    written,
    part,
    directive,
    item,
    event,
    reading,
    fitting,
    off,
    decide,
  };
}

/** Sends it: a sentence that fits, no fault, and nothing written. */
export async function isRefused(at: Place, [, mutation, input, words, role]: Row): Promise<void> {
  const before = await at.written();
  const { status, said } = await at.does(mutation, input(), role);
  expect(said.message).toMatch(words);
  expect(status).toBeLessThan(500);
  expect([
    'BAD_INPUT',
    'NOT_FOUND',
    'CONFLICT',
    'AGAINST_RULE',
    'GRAPHQL_VALIDATION_FAILED',
    'BAD_USER_INPUT',
  ]).toContain(said.code);
  expect(await at.written()).toBe(before);
}
