/** The demo shop, loaded for a test file of its own. */
import { DEMO_SHOP_ID, loadDemo } from '@fairlead/api/demo/load-demo';
import { createClient, inShop, type Tx } from '@fairlead/database';
import { expect } from 'vitest';
import { startApi } from '../../support/api.ts';

export const NOW = new Date('2027-03-02T09:00:00Z');

/** An API with the demo in it, as it is on the morning of NOW; taken down at the end of the file. */
export async function startDemo() {
  const api = await startApi({ now: () => NOW });
  const client = createClient({ url: api.database.appUrl, poolSize: 2 });
  const load = (now = NOW) =>
    loadDemo({ appUrl: api.database.appUrl, uploadsDir: api.uploadsDir, now });
  return {
    api,
    load,
    first: await load(),
    /** Rows read as the application, inside the demo shop. */
    inside: <T>(work: (tx: Tx) => Promise<T>) =>
      inShop(client, { shopId: DEMO_SHOP_ID, personId: null, requestId: 'test' }, work),
    async stop() {
      await client.$disconnect();
      expect(api.faults).toEqual([]);
      await api.stop();
    },
  };
}
