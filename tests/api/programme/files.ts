import type { Role } from '@fairlead/database';
import type { TestApi } from '../../support/api.ts';
import type { TestShop } from '../../support/shop.ts';
import { aircraft } from './flown.ts';

/** Sends a file as the pages of the shop do. */
export async function send(
  api: TestApi,
  shop: TestShop,
  what: 'flights' | 'items',
  csv: string | Buffer,
  role: Role = 'inspector',
): Promise<{ status: number; said: unknown }> {
  const response = await fetch(`${api.origin}/due/${what}/${aircraft(shop)}`, {
    method: 'POST',
    headers: {
      'x-fairlead': '1',
      'content-type': 'text/csv',
      cookie: await shop.cookie(role),
    },
    body: typeof csv === 'string' ? csv : new Uint8Array(csv),
  });
  return { status: response.status, said: await response.json() };
}
