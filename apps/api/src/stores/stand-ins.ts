import type { PartRelationKind, Tx } from '@fairlead/database';

/** A part that may stand in for another, however many steps away. */
export interface StandIn {
  partId: string;
  /** Superseded where every step says so; an alternate where one step is one. */
  kind: 'superseded' | 'alternate';
  /** Steps from the part that was asked for; 1 is the next. */
  steps: number;
}

/** Longer chains of numbers are a mistake somewhere. */
const FARTHEST = 20;

/**
 * Everything that may stand in for a part, the nearest first: the newest word about each pair holds. One statement, since
 * chains are followed where the rows are.
 */
export async function standInsOf(read: Tx, partId: string): Promise<StandIn[]> {
  const rows = await read.$queryRaw<
    { part_id: string; kind: PartRelationKind; steps: number }[]
  >`WITH RECURSIVE holds AS (
      SELECT part_id, instead_id, kind FROM (
        SELECT DISTINCT ON (part_id, instead_id) part_id, instead_id, kind FROM part_relation
        ORDER BY part_id, instead_id, at DESC, id DESC) newest
      WHERE kind <> 'withdrawn'
    ), reached AS (
      SELECT instead_id AS part_id, kind, 1 AS steps FROM holds WHERE part_id = ${partId}::uuid
      UNION
      SELECT h.instead_id, CASE WHEN r.kind = 'superseded' THEN h.kind ELSE r.kind END, r.steps + 1
      FROM holds h JOIN reached r ON h.part_id = r.part_id WHERE r.steps < ${FARTHEST}
    )
    SELECT part_id::text, kind::text, min(steps)::int AS steps FROM reached GROUP BY part_id, kind
    ORDER BY steps, kind DESC, part_id`;
  const seen = new Set<string>();
  return rows.flatMap(({ part_id, kind, steps }) => {
    if (seen.has(part_id) || kind === 'withdrawn') return [];
    seen.add(part_id);
    return [{ partId: part_id, kind, steps }];
  });
}
