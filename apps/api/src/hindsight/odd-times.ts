import type { Tx } from '@fairlead/database';
import { globalId } from '../ids.ts';
import type { KeptOddTime } from './odd-times-of.ts';

const MOST_DECIDED = 100;

/** What is known of a past job whose time is looked at. */
export interface TimeFacts {
  key: string;
  own: boolean;
  title: string | null;
  task: string;
  taskTitle: string | null;
  completedOn: Date;
  registration: string;
  model: string;
  mechanics: string[];
  hours: number;
  orderId: string | null;
  orderNumber: number | null;
}

const reviewsOf = (read: Tx, keys: readonly string[]) =>
  read.timeReview.findMany({
    where: { OR: [{ itemId: { in: [...keys] } }, { historyItemId: { in: [...keys] } }] },
    orderBy: [{ decidedAt: 'desc' }, { id: 'desc' }],
    include: { decidedBy: { select: { name: true } } },
  });
export type ReviewRow = Awaited<ReturnType<typeof reviewsOf>>[number];

/** A time that looks odd, or that somebody has decided about. */
export interface WatchedTime extends TimeFacts {
  id: string;
  /** Null: it was proposed before, and is decided. */
  proposal: KeptOddTime | null;
  /** The newest first. */
  decisions: ReviewRow[];
}

/** Facts of some past jobs, by their keys. */
export const timeFacts = (
  read: Pick<Tx, '$queryRaw'>,
  keys: readonly string[],
): Promise<TimeFacts[]> =>
  read.$queryRaw<TimeFacts[]>`
    SELECT coalesce(h.item_id, h.history_item_id) AS key, h.item_id IS NOT NULL AS own, i.title, h.task, t.title AS "taskTitle",
      h.completed_on AS "completedOn", h.registration, h.model, h.hours, o.id AS "orderId", o.number AS "orderNumber",
      ARRAY(SELECT each->>'name' FROM jsonb_array_elements(h.mechanics) AS each) AS mechanics
    FROM labour_history h
    LEFT JOIN work_item i ON i.shop_id = h.shop_id AND i.id = h.item_id
    LEFT JOIN work_order o ON o.shop_id = i.shop_id AND o.id = i.order_id
    LEFT JOIN task t ON t.shop_id = h.shop_id AND t.key = h.task
    WHERE h.shop_id = current_shop() AND (h.item_id = ANY(${[...keys]}::uuid[]) OR h.history_item_id = ANY(${[...keys]}::uuid[]))`;

/** The key of a row in an id of this API that we made ourselves. */
const keyIn = (id: string) => Buffer.from(id, 'base64url').toString('utf8').split(':')[1] ?? '';

/** What the other tasks are called that odd times may have been. */
async function titlesOf(read: Tx, odd: readonly KeptOddTime[]): Promise<Map<string, string>> {
  const keys = odd.flatMap(({ reasons }) => reasons.flatMap(({ otherTask }) => otherTask ?? []));
  const tasks = await read.task.findMany({
    where: { key: { in: keys } },
    select: { key: true, title: true },
  });
  return new Map(tasks.map(({ key, title }) => [key, title]));
}

const withTitles = (proposal: KeptOddTime, titles: ReadonlyMap<string, string>): KeptOddTime => ({
  ...proposal,
  reasons: proposal.reasons.map((reason) => {
    const title = titles.get(reason.otherTask ?? '');
    return title
      ? { ...reason, words: reason.words.replace(`"${reason.otherTask}"`, `"${title}"`) }
      : reason;
  }),
});

export interface OddTimes {
  /** The model that proposes; null before the first fit. */
  modelId: string | null;
  proposed: WatchedTime[];
  decided: WatchedTime[];
}

/**
 * Times that the newest model cannot believe, the least believable first, and times that were decided about, the newest
 * decision first. A time that was decided, or whose clock was corrected since, is no longer proposed.
 */
export async function oddTimes(read: Tx): Promise<OddTimes> {
  const model = await read.hoursModel.findFirst({
    where: { items: { gt: 0 } },
    orderBy: { number: 'desc' },
    select: { id: true, oddTimes: true },
  });
  const odd = (model?.oddTimes ?? []) as unknown as KeptOddTime[];
  const newest = await read.$queryRaw<{ key: string }[]>`
    SELECT coalesce(item_id, history_item_id) AS key FROM time_review WHERE shop_id = current_shop()
    GROUP BY 1 ORDER BY max(decided_at) DESC, 1 LIMIT ${MOST_DECIDED}`;
  const decidedKeys = newest.map(({ key }) => key);
  const keys = [...new Set([...odd.map(({ id }) => keyIn(id)), ...decidedKeys])];
  const reviews = await reviewsOf(read, keys);
  const facts = new Map((await timeFacts(read, keys)).map((each) => [each.key, each]));
  const decisionsOf = (key: string) =>
    reviews.filter(({ itemId, historyItemId }) => (itemId ?? historyItemId) === key);
  const watched = (key: string, proposal: KeptOddTime | null): WatchedTime[] => {
    const known = facts.get(key);
    if (!known) return [];
    const id = globalId(known.own ? 'WorkItem' : 'HistoryItem', key);
    return [{ ...known, id, proposal, decisions: decisionsOf(key) }];
  };
  const titles = await titlesOf(read, odd);
  return {
    modelId: model?.id ?? null,
    proposed: odd
      .flatMap((proposal) => watched(keyIn(proposal.id), withTitles(proposal, titles)))
      .filter(
        ({ decisions, hours, proposal }) =>
          decisions.length === 0 && Math.abs(hours - (proposal?.hours ?? 0)) < 1e-6,
      ),
    decided: decidedKeys.flatMap((key) => watched(key, null)),
  };
}
