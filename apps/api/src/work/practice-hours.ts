import type { Tx } from '@fairlead/database';
import { builder } from '../builder.ts';
import { allow } from '../context.ts';
import { Refused } from '../errors.ts';
import { sayDay } from '../given.ts';

/** Hours of one person over some days, as a record of practice. */
export interface PracticeHours {
  personId: string;
  name: string;
  /** On their own clock. */
  worked: number;
  /** Of those, under somebody's supervision. */
  supervised: number;
  /** On the clocks of those whom they supervised. */
  overseen: number;
}

/**
 * What each person worked and oversaw from one civil day to another, both whole; a stretch counts to the day on which it
 * began. Hours under supervision are one stretch, billed once: the same hours stand with both.
 */
export function practiceHours(
  read: Pick<Tx, '$queryRaw'>,
  personId: string | null,
  { from, to, now }: { from: Date; to: Date; now: Date },
): Promise<PracticeHours[]> {
  return read.$queryRaw<PracticeHours[]>`
    WITH worked AS (
      SELECT s.person_id, s.supervised_by_id, extract(epoch FROM greatest(coalesce(s.ended_at, ${now}) - s.started_at, interval '0'))::float8 / 3600 AS hours
      FROM stretch s JOIN shop ON shop.id = s.shop_id
      WHERE s.shop_id = current_shop() AND (s.started_at AT TIME ZONE shop.time_zone)::date BETWEEN ${from}::date AND ${to}::date)
    SELECT p.id AS "personId", p.name,
      coalesce((SELECT sum(hours) FROM worked w WHERE w.person_id = p.id), 0) AS worked,
      coalesce((SELECT sum(hours) FROM worked w WHERE w.person_id = p.id AND w.supervised_by_id IS NOT NULL), 0) AS supervised,
      coalesce((SELECT sum(hours) FROM worked w WHERE w.supervised_by_id = p.id), 0) AS overseen
    FROM person p WHERE p.shop_id = current_shop() AND (${personId}::uuid IS NULL OR p.id = ${personId}::uuid)
      AND EXISTS (SELECT FROM worked w WHERE p.id IN (w.person_id, w.supervised_by_id))
    ORDER BY p.name, p.id`;
}

const PracticeType = builder.objectRef<PracticeHours>('PracticeHours').implement({
  description: 'Hours of one person over some days, as a record of practice.',
  fields: (t) => ({
    name: t.exposeString('name', { description: 'Who.' }),
    worked: t.exposeFloat('worked', { description: 'Hours on their own clock.' }),
    supervised: t.exposeFloat('supervised', {
      description: 'Of those, hours under somebody’s supervision.',
    }),
    overseen: t.exposeFloat('overseen', {
      description: 'Hours on the clocks of those whom they supervised; billed there, not here.',
    }),
  }),
});
const PracticeList = builder.objectRef<PracticeHours[]>('PracticeRecord').implement({
  description: 'Who worked, and who oversaw it.',
  fields: (t) => ({
    people: t.field({
      type: [PracticeType],
      description: 'Whoever worked or oversaw, by name.',
      resolve: (people) => people,
    }),
  }),
});

builder.queryField('practiceRecord', (t) =>
  t.field({
    type: PracticeList,
    errors: {},
    description:
      'Hours worked, under supervision, and overseen. The manager reads everybody’s, others their own.',
    args: {
      from: t.arg({ type: 'Date', required: true, description: 'From which day.' }),
      to: t.arg({ type: 'Date', required: true, description: 'To which day, itself included.' }),
    },
    resolve: async (_, { from, to }, context) => {
      const { personId } = await allow(context, 'mechanic', 'inspector', 'manager');
      if (to < from)
        throw new Refused(
          'BAD_INPUT',
          `The days are ${sayDay(from)} to ${sayDay(to)}: needed is a last day that is not before the first.`,
          'to',
        );
      const all = (await context.roles()).includes('manager');
      return practiceHours(context.read, all ? null : personId, { from, to, now: context.now() });
    },
  }),
);
