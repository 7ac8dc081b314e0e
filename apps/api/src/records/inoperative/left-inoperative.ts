import { inoperativeLine } from '@fairlead/airworthiness';
import type { FindingClass, InoperativeMethod, Prisma, Tx } from '@fairlead/database';
import { findingClass, findingFacts, findingState } from '../../states.ts';

/** A finding, with what follows from it as inoperative equipment. */
export const leftFacts = {
  ...{ id: true, number: true, title: true, orderId: true },
  order: { select: { number: true } },
  ...findingFacts,
  inoperative: {
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: 1,
    select: {
      ...{ kind: true, equipment: true, method: true, placardAt: true, capacity: true, at: true },
      ...{ notTypeBasis: true, notListed: true, notRuled: true, notDirected: true, noHazard: true },
      by: { select: { name: true } },
    },
  },
} satisfies Prisma.FindingSelect;

/** Equipment that stays inoperative on an aircraft, as 14 CFR 91.213(d) permits, until its finding is corrected. */
export interface LeftInoperative {
  findingId: string;
  orderId: string;
  orderNumber: number;
  number: number;
  title: string;
  class: FindingClass;
  equipment: string;
  method: InoperativeMethod;
  placardAt: string;
  /** One sentence for entry, list and status sheet. */
  line: string;
  at: Date;
  by: string;
  capacity: string;
}

/** What stays inoperative on an aircraft now, found on whichever order, in the order in which it was found. */
export async function leftInoperative(
  read: Tx,
  aircraftId: string,
  today: Date,
): Promise<LeftInoperative[]> {
  const findings = await read.finding.findMany({
    where: { order: { aircraftId }, inoperative: { some: {} } },
    orderBy: [{ foundAt: 'asc' }, { id: 'asc' }],
    select: leftFacts,
  });
  return findings.flatMap((finding) => leftOf(finding, today) ?? []);
}

/** That a finding's equipment stays inoperative; null: nobody found that it may, or it is corrected. */
export function leftOf(
  { id, inoperative: [newest], ...finding }: Prisma.FindingGetPayload<{ select: typeof leftFacts }>,
  today: Date,
): LeftInoperative | null {
  if (newest?.kind !== 'left' || newest.method === null) return null;
  if (findingState(finding, today) === 'corrected') return null;
  const { equipment, method, placardAt, at, by, capacity } = newest;
  return {
    findingId: id,
    ...{ orderId: finding.orderId, orderNumber: finding.order.number },
    ...{ number: finding.number, title: finding.title, class: findingClass(finding) },
    ...{ equipment, method, placardAt, at, by: by.name, capacity },
    line: inoperativeLine({ equipment, method, placardAt }),
  };
}
