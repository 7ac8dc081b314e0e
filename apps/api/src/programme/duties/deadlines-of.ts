import { certificateNames } from '@fairlead/airworthiness';
import type { CertificateKind, DutyKind, Tx } from '@fairlead/database';
import { globalId } from '../../ids.ts';
import { dateOf, dayOf } from '../due-terms.ts';

export type DeadlineKind = DutyKind | 'tool' | 'certificate' | 'data';
export type DeadlineState = 'late' | 'soon' | 'open' | 'done';

/** Something that has to be done by a day or a moment, who did it, and what it is about. */
export interface Deadline {
  /** The duty, tool, certificate or data source. */
  id: string;
  kind: DeadlineKind;
  title: string;
  detail: string;
  dueAt: Date | null;
  dueOn: Date | null;
  state: DeadlineState;
  doneAt: Date | null;
  doneBy: string | null;
  doneWords: string;
  orderId: string | null;
}

const SOON_DAYS = 30;
const DAY = 86_400_000;
const order: DeadlineState[] = ['late', 'soon', 'open', 'done'];

const byDay = (dueOn: number, today: number): DeadlineState =>
  dueOn < today ? 'late' : dueOn - today <= SOON_DAYS ? 'soon' : 'open';
const notDone = { dueAt: null, doneAt: null, doneBy: null, doneWords: '', orderId: null };

/** What the shop owes and when its tools, certificates and data run out, most pressing first; what was done for thirty days. */
export async function deadlinesOf(read: Tx, now: Date, today: Date): Promise<Deadline[]> {
  const all = [
    ...(await duties(read, now)),
    ...(await tools(read, today)),
    ...(await certificates(read, today)),
    ...(await dataSources(read, today)),
  ];
  const when = ({ dueAt, dueOn }: Deadline) => Number(dueAt ?? dueOn);
  return all.toSorted(
    (one, other) =>
      order.indexOf(one.state) - order.indexOf(other.state) || when(one) - when(other),
  );
}

async function duties(read: Tx, now: Date): Promise<Deadline[]> {
  const rows = await read.duty.findMany({
    where: {
      OR: [{ done: null }, { done: { at: { gt: new Date(now.getTime() - 30 * DAY) } } }],
    },
    select: {
      ...{ id: true, kind: true, words: true, dueAt: true, orderId: true },
      order: { select: { number: true, aircraft: { select: { registration: true } } } },
      done: { select: { at: true, words: true, by: { select: { name: true } } } },
    },
  });
  return rows.map(({ id, kind, words, dueAt, orderId, order: of, done }) => ({
    ...{ id: globalId('Duty', id), kind, title: words, dueAt, dueOn: null, orderId },
    detail: `${of.aircraft.registration}, order ${of.number}`,
    // Hours that run are soon at any time.
    state: done ? 'done' : dueAt < now ? 'late' : 'soon',
    ...{ doneAt: done?.at ?? null, doneBy: done?.by.name ?? null, doneWords: done?.words ?? '' },
  }));
}

async function tools(read: Tx, today: Date): Promise<Deadline[]> {
  const rows = await read.tool.findMany({
    where: { retiredAt: null },
    select: {
      ...{ id: true, name: true, number: true },
      calibrations: { orderBy: { at: 'desc' }, take: 1, select: { dueOn: true } },
    },
  });
  return rows.flatMap(({ id, name, number, calibrations: [last] }) =>
    last
      ? [
          {
            ...{ ...notDone, id: globalId('Tool', id), kind: 'tool' as const, title: name },
            ...{ detail: `No. ${number}`, dueOn: last.dueOn },
            state: byDay(dayOf(last.dueOn), dayOf(today)),
          },
        ]
      : [],
  );
}

/** A station's inspector is on its roster, which is no certificate of the authority. */
const nameOf = (kind: CertificateKind) =>
  kind === 'repair_station_inspector' ? 'inspector of the repair station' : certificateNames[kind];

async function certificates(read: Tx, today: Date): Promise<Deadline[]> {
  const rows = await read.certificate.findMany({
    where: { person: { active: true } },
    orderBy: { validFrom: 'asc' },
    select: {
      ...{ id: true, kind: true, number: true, personId: true, validUntil: true },
      person: { select: { name: true } },
    },
  });
  // Of several of one kind the newest counts.
  const newest = new Map(rows.map((row) => [`${row.personId} ${row.kind}`, row]));
  return [...newest.values()].flatMap(({ id, kind, number, validUntil, person }) =>
    validUntil
      ? [
          {
            ...{ ...notDone, id: globalId('Certificate', id), kind: 'certificate' as const },
            ...{ title: person.name, detail: `${nameOf(kind)}, No. ${number}`, dueOn: validUntil },
            state: byDay(dayOf(validUntil), dayOf(today)),
          },
        ]
      : [],
  );
}

async function dataSources(read: Tx, today: Date): Promise<Deadline[]> {
  const rows = await read.dataSource.findMany({
    select: {
      ...{ id: true, title: true, everyDays: true },
      checks: {
        orderBy: [{ checkedOn: 'desc' }, { at: 'desc' }],
        take: 1,
        select: { revision: true, checkedOn: true, by: { select: { name: true } } },
      },
    },
  });
  return rows.flatMap(({ id, title, everyDays, checks: [last] }) => {
    if (!last) return [];
    const due = dayOf(last.checkedOn) + everyDays;
    return [
      {
        ...{ ...notDone, id: globalId('DataSource', id), kind: 'data' as const, title },
        detail: `revision ${last.revision}, looked up by ${last.by.name} on ${last.checkedOn.toISOString().slice(0, 10)}`,
        ...{ dueOn: dateOf(due), state: byDay(due, dayOf(today)) },
      },
    ];
  });
}
