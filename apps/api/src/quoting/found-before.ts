import type { Tx } from '@fairlead/database';
import type { FindingCount } from '@fairlead/labour';

/** What was found in a package before: the work that corrected it, how often on which model, and what its parts came to. */
export interface FoundBefore {
  taskId: string;
  counts: FindingCount[];
  /** Net, minor units: the middle of what was offered for it, or what the manager told; 0 where nobody said. */
  partsMinor: number;
}

/** Told of all models together: counts as other models than the one asked for. */
const OF_ALL_MODELS = 'all models';

interface DoneRow {
  model: string;
  orders: number;
}
interface SeenRow {
  taskId: string;
  model: string;
  orders: number;
  partsMinor: number;
}

/**
 * What tends to be found in a package, from two sources that are added up: the shop's own released orders of it (a finding
 * counts by the work that was offered to correct it, whatever the owner answered), and what the manager told of
 * earlier years. Four statements, however long the history.
 */
export async function foundBefore(read: Tx, packageId: string): Promise<FoundBefore[]> {
  const done = await read.$queryRaw<DoneRow[]>`
    SELECT m.maker || ' ' || m.name AS model, count(DISTINCT o.id)::int AS orders
    FROM quote q
    JOIN work_order o ON o.shop_id = q.shop_id AND o.id = q.order_id
    JOIN order_event e ON e.shop_id = o.shop_id AND e.order_id = o.id AND e.kind = 'released'
    JOIN aircraft c ON c.shop_id = o.shop_id AND c.id = o.aircraft_id
    JOIN aircraft_model m ON m.shop_id = c.shop_id AND m.id = c.model_id
    WHERE q.shop_id = current_shop() AND q.package_id = ${packageId}::uuid AND q.finding_id IS NULL
    GROUP BY 1 ORDER BY 1`;
  const seen = await read.$queryRaw<SeenRow[]>`
    WITH of_package AS (
      SELECT DISTINCT o.id, m.maker || ' ' || m.name AS model
      FROM quote q
      JOIN work_order o ON o.shop_id = q.shop_id AND o.id = q.order_id
      JOIN order_event e ON e.shop_id = o.shop_id AND e.order_id = o.id AND e.kind = 'released'
      JOIN aircraft c ON c.shop_id = o.shop_id AND c.id = o.aircraft_id
      JOIN aircraft_model m ON m.shop_id = c.shop_id AND m.id = c.model_id
      WHERE q.shop_id = current_shop() AND q.package_id = ${packageId}::uuid AND q.finding_id IS NULL
    ), offered AS (
      SELECT p.id AS order_id, p.model, newest.id AS revision_id
      FROM of_package p
      JOIN quote q ON q.shop_id = current_shop() AND q.order_id = p.id AND q.finding_id IS NOT NULL
      JOIN LATERAL (SELECT r.id FROM quote_revision r WHERE r.shop_id = q.shop_id AND r.quote_id = q.id
        ORDER BY r.revision DESC LIMIT 1) newest ON true
    ), by_task AS (
      SELECT DISTINCT ON (f.order_id, l.task_id) f.order_id, f.model, l.task_id,
        -- The parts of an offer belong to its first task, so that no part is counted twice.
        CASE WHEN l.position = (SELECT min(n.position) FROM quote_line n
            WHERE n.shop_id = current_shop() AND n.revision_id = f.revision_id AND n.task_id IS NOT NULL)
          THEN coalesce((SELECT sum(x.likely_minor) FROM quote_line x
            WHERE x.shop_id = current_shop() AND x.revision_id = f.revision_id AND x.part_id IS NOT NULL), 0)
          ELSE 0 END AS parts
      FROM offered f
      JOIN quote_line l ON l.shop_id = current_shop() AND l.revision_id = f.revision_id AND l.task_id IS NOT NULL
      ORDER BY f.order_id, l.task_id, l.position
    )
    SELECT task_id AS "taskId", model, count(*)::int AS orders,
      percentile_cont(0.5) WITHIN GROUP (ORDER BY parts)::float8 AS "partsMinor"
    FROM by_task GROUP BY task_id, model ORDER BY task_id, model`;
  const told = await read.toldFinding.findMany({
    where: { packageId },
    orderBy: [{ toldAt: 'asc' }, { id: 'asc' }],
    select: {
      taskId: true,
      seen: true,
      of: true,
      partsMinor: true,
      model: { select: { maker: true, name: true } },
    },
  });
  return addUp(done, seen, newestOf(told));
}

type Told = {
  taskId: string;
  seen: number;
  of: number;
  partsMinor: bigint | null;
  model: { maker: string; name: string } | null;
};
const modelOf = ({ model }: Told) => (model ? `${model.maker} ${model.name}` : OF_ALL_MODELS);

/** Of two tellings of one task and model the later one holds. */
const newestOf = (told: readonly Told[]): Told[] => [
  ...new Map(told.map((each) => [`${each.taskId} ${modelOf(each)}`, each])).values(),
];

function addUp(
  done: readonly DoneRow[],
  seen: readonly SeenRow[],
  told: readonly Told[],
): FoundBefore[] {
  const taskIds = [...new Set([...seen, ...told].map(({ taskId }) => taskId))];
  return taskIds.map((taskId) => {
    const counts = new Map<string, { seen: number; of: number }>();
    const add = (model: string, more: { seen: number; of: number }) => {
      const sofar = counts.get(model) ?? { seen: 0, of: 0 };
      counts.set(model, { seen: sofar.seen + more.seen, of: sofar.of + more.of });
    };
    const own = seen.filter((each) => each.taskId === taskId);
    for (const { model, orders } of done)
      add(model, { seen: own.find((each) => each.model === model)?.orders ?? 0, of: orders });
    const ofTask = told.filter((each) => each.taskId === taskId);
    for (const each of ofTask) add(modelOf(each), each);
    const parts =
      own.length > 0
        ? own.reduce((most, each) => (each.orders > most.orders ? each : most)).partsMinor
        : Number(ofTask.findLast(({ partsMinor }) => partsMinor !== null)?.partsMinor ?? 0n);
    return {
      taskId,
      counts: [...counts].map(([model, count]) => ({ model, ...count })),
      partsMinor: Math.round(parts),
    };
  });
}
