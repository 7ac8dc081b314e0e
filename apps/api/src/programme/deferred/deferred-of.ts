import { type Due, type DueItem, hundredths, standOf } from '@fairlead/airworthiness';
import type { FindingClass, Prisma, Tx } from '@fairlead/database';
import { leftFacts, leftOf } from '../../records/queries.ts';
import { findingClass, findingState } from '../../states.ts';
import { type DueList, SOON } from '../due-list.ts';
import { dayOf } from '../due-terms.ts';

/** A finding that was put off, and how the aircraft stands against its limit. */
export interface DeferredLine {
  findingId: string;
  orderId: string;
  orderNumber: number;
  number: number;
  title: string;
  class: FindingClass;
  reason: string;
  /** Null: nobody said until when. */
  due: Due | null;
  because: string;
  /** What corrects it, as it was last priced; empty: it never was. */
  taskIds: readonly string[];
  /** It stays inoperative, as 14 CFR 91.213(d) permits, in one sentence; null: nobody found that it may. */
  inoperative: string | null;
}

/** What was put off on an aircraft, on whichever order, most pressing first. */
export async function deferredOf(read: Tx, list: DueList, today: Date): Promise<DeferredLine[]> {
  const findings = await read.finding.findMany({
    where: {
      order: { aircraftId: list.aircraftId },
      OR: [{ events: { some: { kind: 'put_off' } } }, { inoperative: { some: {} } }],
    },
    orderBy: [{ foundAt: 'asc' }, { id: 'asc' }],
    select: leftFacts,
  });
  const open = findings.flatMap((finding) => {
    const left = leftOf(finding, today);
    return left || findingState(finding, today) === 'put_off' ? [{ ...finding, left }] : [];
  });
  const tasks = await tasksOf(
    read,
    open.map(({ id }) => id),
  );
  const hoursOrDays = ({ due }: DeferredLine) =>
    Math.min(due?.remaining.days ?? Infinity, (due?.remaining.hours ?? Infinity) / 100);
  return open
    .map(({ id, events, left, ...finding }): DeferredLine => {
      const put = events.findLast(({ kind }) => kind === 'put_off');
      const stands = put
        ? stand(id, put, list, today)
        : { due: null, because: 'Declined, and nobody said until when' };
      return {
        ...{ findingId: id, number: finding.number, title: finding.title },
        ...{ orderId: finding.orderId, orderNumber: finding.order.number },
        class: findingClass({ ...finding, events }),
        reason: put?.meaning ?? '',
        ...stands,
        taskIds: tasks.get(id) ?? [],
        inoperative: left?.line ?? null,
      };
    })
    .toSorted((one, other) => hoursOrDays(one) - hoursOrDays(other));
}

type PutOff = Prisma.FindingGetPayload<{ select: typeof leftFacts }>['events'][number];

function stand(
  id: string,
  { untilOn, untilHundredths, untilInspection }: PutOff,
  { lines, tisHundredths, registration }: DueList,
  today: Date,
): Pick<DeferredLine, 'due' | 'because'> {
  const [next] = untilInspection
    ? lines.filter(({ row, due }) => row.kind === 'inspection' && due !== null)
    : [];
  const day = least(untilOn && dayOf(untilOn), next?.due?.due.date ?? null);
  const hours = least(untilHundredths, next?.due?.due.tis ?? null);
  const words = [
    ...(untilOn ? [`until ${untilOn.toISOString().slice(0, 10)}`] : []),
    ...(untilHundredths === null ? [] : [`until ${(untilHundredths / 100).toFixed(2)} h`]),
    ...(untilInspection
      ? [
          next
            ? `until the next inspection: ${next.row.title}`
            : 'until the next inspection, and none is reckoned here',
        ]
      : []),
  ];
  const because =
    words.length === 0 ? 'Put off, and nobody said until when' : `Put off ${words.join(' or ')}`;
  const counted = tisHundredths === null ? null : hours;
  if (day === null && counted === null)
    return {
      due: null,
      because: hours === null ? because : `${because}. No meter of ${registration} was read`,
    };
  const item: DueItem = {
    ...{ id, rule: 'once', whichever: 'first', enRoute: false },
    limit: {
      ...(day !== null && { date: day }),
      ...(counted !== null && { hours: hundredths(counted) }),
    },
  };
  const at = { date: dayOf(today), tis: hundredths(tisHundredths ?? 0) };
  return { due: standOf(item, at, { hours: hundredths(SOON.hours), days: SOON.days }), because };
}

const least = (one: number | null, other: number | null) =>
  one === null || other === null ? (one ?? other) : Math.min(one, other);

/** The tasks by which each finding was last priced. */
async function tasksOf(read: Tx, findingIds: readonly string[]): Promise<Map<string, string[]>> {
  const quotes = await read.quote.findMany({
    where: { findingId: { in: [...findingIds] } },
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
    select: {
      findingId: true,
      revisions: {
        orderBy: { revision: 'desc' },
        take: 1,
        select: { lines: { where: { taskId: { not: null } }, select: { taskId: true } } },
      },
    },
  });
  return new Map(
    quotes.map(({ findingId, revisions: [newest] }) => [
      findingId ?? '',
      (newest?.lines ?? []).flatMap(({ taskId }) => taskId ?? []),
    ]),
  );
}
