import { openStore } from '../../lib/idb.ts';
import type { Pending } from './pending.ts';

export type { Pending, PendingPhoto } from './pending.ts';

/** What the device keeps until the server has it; it survives a reload. A finding and its photos are put together. */
export const outboxStore = openStore<Pending>('fairlead', 'outbox', 'id');
