import type { Context } from './context.ts';

type Proved = 'decision' | 'entry' | 'invoice';
type Batch = { ids: Set<string>; answer: Promise<Map<string, string>> };

const open = new WeakMap<Context, Map<Proved, Batch>>();

/**
 * Hash of the link of the shop's chain that proves something, hexadecimal; null where nothing is proved yet. Asked
 * for many things at once it is one statement: those asked for in the same turn are read together.
 */
export async function chainHash(
  context: Context,
  proved: Proved,
  id: string,
): Promise<string | null> {
  const batches = open.get(context) ?? new Map<Proved, Batch>();
  open.set(context, batches);
  let batch = batches.get(proved);
  if (!batch) {
    const ids = new Set<string>();
    batch = {
      ids,
      answer: new Promise((done, failed) =>
        setImmediate(() => {
          batches.delete(proved);
          readHashes(context, proved, [...ids]).then(done, failed);
        }),
      ),
    };
    batches.set(proved, batch);
  }
  batch.ids.add(id);
  return (await batch.answer).get(id) ?? null;
}

async function readHashes(
  { read }: Context,
  kind: Proved,
  ids: readonly string[],
): Promise<Map<string, string>> {
  const links = await read.chainLink.findMany({
    where: { kind, subjectId: { in: [...ids] } },
    orderBy: { seq: 'asc' },
    select: { subjectId: true, hash: true },
  });
  return new Map(
    links.map(({ subjectId, hash }) => [subjectId ?? '', Buffer.from(hash).toString('hex')]),
  );
}
