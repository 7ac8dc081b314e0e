import type { Prisma } from '@fairlead/database';

/** What is needed to say until when a tool is good. */
export const toolFacts = {
  kind: true,
  name: true,
  number: true,
  retiredAt: true,
  calibrations: {
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: 1,
    select: { dueOn: true },
  },
} satisfies Prisma.ToolSelect;

export type ToolFacts = Prisma.ToolGetPayload<{ select: typeof toolFacts }>;

/** The last day on which a tool is good, by its newest calibration; null: it never had one. */
export const goodUntil = ({
  calibrations: [newest],
}: Pick<ToolFacts, 'calibrations'>): Date | null => newest?.dueOn ?? null;

/** A tool is good through its due day; one without a calibration is not. */
export const isLapsed = (until: Date | null, today: Date): boolean =>
  until === null || until < today;
