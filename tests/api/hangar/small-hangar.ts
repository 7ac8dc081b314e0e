import { globalId } from '@fairlead/api/ids';
import type { Role } from '@fairlead/database';
import type { TestApi } from '../../support/api.ts';
import { makeShop, type TestShop } from '../../support/shop.ts';

export const NOW = new Date('2026-05-04T12:00:00Z');

export const at = (hours: number) => new Date(NOW.getTime() + hours * 3_600_000);
/** What any change of the floor answers. */
export interface StayAnswer {
  id: string;
  kind?: string;
  endsAt?: string | null;
  code?: string;
  message?: string;
  by?: string | null;
  at?: string | null;
  stay?: { stand: { name: string } } | null;
}
/** One change of the floor over HTTP; a refusal is an answer. */
export async function put(
  shop: TestShop,
  name: 'planStay' | 'moveAircraft' | 'departAircraft' | 'planDeparture' | 'replanStay',
  input: Record<string, unknown>,
  role: Role = 'manager',
): Promise<StayAnswer> {
  const type = `${name[0]?.toUpperCase()}${name.slice(1)}Input`;
  const answer = await shop.as<{ done: StayAnswer }>(
    role,
    `mutation($input: ${type}!) { done: ${name}(input: $input) { ... on Stay { id kind startsAt endsAt stand { name } aircraft { registration } order { number } } ... on Refusal { code message } ... on MovedMeanwhile { message by at stay { stand { name } } } } }`,
    { input },
  );
  if (!answer.data) throw new Error(JSON.stringify(answer));
  return answer.data.done;
}

/** A shop with stands of 12 × 12, 4.5 × 12 and 6 × 10 m, a small helicopter and QQ-117, which is 10.9 m long. */
export async function makeHangar(api: TestApi) {
  const shop = await makeShop(api);
  const more = await shop.inside(async (tx) => {
    const { hangarId } = await tx.stand.findUniqueOrThrow({ where: { id: shop.standId } });
    const second = await tx.stand.create({
      data: { hangarId, name: '2', xMm: 14_000, yMm: 1000, widthMm: 4500, depthMm: 12_000 },
    });
    const small = await tx.stand.create({
      data: { hangarId, name: '3', xMm: 20_000, yMm: 1000, widthMm: 6000, depthMm: 10_000 },
    });
    const model = await tx.aircraftModel.create({
      data: {
        shopId: shop.shopId,
        maker: 'Testmaker',
        name: 'T-4',
        kind: 'helicopter_four_seat',
        lengthMm: 9000,
        spanMm: 10_100,
        heightMm: 3300,
        parkedLengthMm: 10_900,
        parkedWidthMm: 2300,
      },
    });
    const aircraft = await tx.aircraft.create({
      data: { shopId: shop.shopId, modelId: model.id, registration: 'QQ-117', serial: '7' },
    });
    return { second: second.id, small: small.id, larger: aircraft.id };
  });
  const stand = (id: string) => globalId('Stand', id);
  const craft = (id: string) => globalId('Aircraft', id);
  return { shop, ...more, stand, craft, first: shop.standId, aircraft: shop.aircraftId };
}

export interface FloorAnswer {
  occupancyToday: number;
  occupancyFortnight: number;
  stands: { name: string; stay: { aircraft: { registration: string } } | null }[];
  coming: {
    at: string;
    kind: string;
    late: boolean;
    stay: { id: string; kind: string; aircraft: { registration: string }; stand: { name: string } };
  }[];
  conflicts: { kind: string; sentence: string; stayIds: string[] }[];
}
const FLOOR = `{ floor { ... on Floor { asOf clearanceMm occupancyToday occupancyFortnight hangar { name widthMm doorWidthMm }
  stands { name xMm headingDeg stay { startsAt aircraft { registration model { kind parkedLengthMm } } order { number title state } } }
  coming { at kind late stay { id kind aircraft { registration } order { title } stand { name } } } conflicts { kind sentence from to stayIds } } ... on Refusal { message } } }`;
export const floor = async (shop: TestShop) =>
  (await shop.as<{ floor: FloorAnswer }>('manager', FLOOR)).data?.floor as FloorAnswer;

/** What the floor shows of an aircraft's place, to be given back with a change. */
export async function versionOf(shop: TestShop, aircraftId: string): Promise<string> {
  const { data } = await shop.as<{ node: { floorVersion: string } }>(
    'manager',
    'query($id: ID!) { node(id: $id) { ... on Aircraft { floorVersion } } }',
    { id: globalId('Aircraft', aircraftId) },
  );
  if (!data) throw new Error('The aircraft has no version');
  return data.node.floorVersion;
}
