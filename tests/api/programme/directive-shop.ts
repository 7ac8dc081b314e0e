import { globalId } from '@fairlead/api/ids';
import type { TestShop } from '../../support/shop.ts';
import { aircraft, type Said } from './flown.ts';

/** A directive of an invented authority for the test shop's model, once within 50 h. */
export async function enter(
  shop: TestShop,
  over: Record<string, unknown> = {},
  role: 'inspector' | 'manager' | 'mechanic' = 'inspector',
): Promise<Said> {
  const { data, errors } = await shop.as<{ addDirective: Said }>(
    role,
    'mutation($input: AddDirectiveInput!) { addDirective(input: $input) { ... on Directive { id } ... on Refusal { code message } } }',
    {
      input: {
        ...{ kind: 'directive', authority: 'Test Authority', number: '2026-01-05', revision: 'A' },
        ...{ revisedOn: '2026-01-20', effectiveOn: '2026-02-12', subject: 'Fuel hose' },
        ...{ method: 'Inspect the hose by paragraph (g)', rule: 'recurring' },
        ...{ withinHundredths: 5000, everyHundredths: 10_000 },
        reaches: [{ modelId: globalId('AircraftModel', shop.modelId), serials: '0001 to 0100' }],
        ...over,
      },
    },
  );
  return data?.addDirective ?? { code: 'NO_ANSWER', message: JSON.stringify(errors) };
}

export async function decide(
  shop: TestShop,
  directiveId: string,
  over: Record<string, unknown> = {},
  role: 'inspector' | 'manager' | 'mechanic' = 'inspector',
): Promise<Said> {
  const { data, errors } = await shop.as<{ decideDirective: Said }>(
    role,
    'mutation($input: DecideDirectiveInput!) { decideDirective(input: $input) { ... on Directive { id } ... on Refusal { code message } } }',
    {
      input: {
        ...{ directiveId, aircraftId: aircraft(shop), binds: true },
        reason: 'Serial number compared with the plate',
        ...over,
      },
    },
  );
  return data?.decideDirective ?? { code: 'NO_ANSWER', message: JSON.stringify(errors) };
}

export interface Reached {
  directive: { number: string; terms: string };
  componentId: string | null;
  found: string;
  because: string;
  decision: { binds: boolean; reason: string; found: string; by: string } | null;
}

export async function reached(shop: TestShop): Promise<Reached[]> {
  const { data, errors } = await shop.as<{ node: { directives: Reached[] } }>(
    'front_desk',
    `query($id: ID!) { node(id: $id) { ... on Aircraft { directives { directive { number terms } componentId found because
      decision { binds reason found by } } } } }`,
    { id: aircraft(shop) },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.node.directives;
}

export interface Section {
  paragraph: string;
  rows: { what: string; status: string; last: string; next: string }[];
}
export async function statusOf(shop: TestShop): Promise<Section[]> {
  const { data, errors } = await shop.as<{ node: { statusSheet: Section[] } }>(
    'front_desk',
    'query($id: ID!) { node(id: $id) { ... on Aircraft { statusSheet { paragraph rows { what status last next } } } } }',
    { id: aircraft(shop) },
  );
  if (!data) throw new Error(JSON.stringify(errors));
  return data.node.statusSheet;
}

/** A part, fitted to the shop's aircraft when that stood at so many hours. */
export async function fitted(
  shop: TestShop,
  over: Partial<{ serial: string; partNumber: string; tis: number; at: number }> = {},
): Promise<string> {
  const { serial = '881', partNumber = 'E-4', tis = 20_000, at = 100_000 } = over;
  const id = await shop.inside(async (tx) => {
    const part = await tx.component.create({
      data: {
        ...{ shopId: shop.shopId, kind: 'engine', title: 'Engine', partNumber, serial },
        tisHundredths: tis,
      },
    });
    await tx.componentFitting.create({
      data: {
        ...{ componentId: part.id, aircraftId: shop.aircraftId, position: 'engine' },
        ...{ fittedAt: new Date('2024-01-01'), aircraftTisHundredths: at },
      },
    });
    return part.id;
  });
  return globalId('Component', id);
}
