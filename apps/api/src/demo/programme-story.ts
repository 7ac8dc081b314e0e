import { parseHours } from '@fairlead/airworthiness';
import { type DemoAircraft, readDemo } from '../../../../prisma/demo/data.ts';
import { type AddDueItemInput, addDueItem } from '../programme/add-due-item.ts';
import { countsUnder, noCounts } from '../programme/counts.ts';
import { recordDueEvent } from '../programme/record-due-event.ts';
import type { Act } from './play.ts';
import type { Props } from './story.ts';

const nothing = {
  ...{ componentId: null, taskId: null, number: null, revision: null, limitDate: null },
  ...{ everyHundredths: null, everyMonths: null, everyCalendarMonths: null, everyDays: null },
  ...{ limitHundredths: null, whicheverLast: false },
  ...countsUnder('every', noCounts),
  ...countsUnder('limit', noCounts),
} satisfies Partial<AddDueItemInput>;

interface Fallen {
  terms: Omit<AddDueItemInput, 'aircraftId'>;
  last: { day: number; timeInService: string; method: string } | null;
  /** Part number and serial number. */
  part?: string;
  task?: string;
}

/** What falls due on an aircraft of the demo, from what its file says of inspections and parts. */
function fallenDue({ inspections, components, recordBooks }: DemoAircraft): Fallen[] {
  const lastOf = (kind: string) => {
    const last = inspections.findLast((one) => one.kind === kind);
    return last ? { ...last, method: `${kind} inspection, by the shop's list` } : null;
  };
  const [annual, hundred, fifty] = ['annual', '100-hour', '50-hour'].map(lastOf);
  const inspection = { ...nothing, kind: 'inspection' } as const;
  const airplane = recordBooks.every(({ kind }) => kind !== 'rotor');
  return [
    ...(annual
      ? [
          {
            terms: {
              ...inspection,
              title: 'Annual inspection',
              rule: 'annual',
              source: '14 CFR 91.409(a)',
            },
            last: annual,
          } as const,
        ]
      : []),
    ...(hundred
      ? [
          {
            terms: {
              ...inspection,
              title: '100-hour inspection',
              rule: 'hundred_hour',
              source: '14 CFR 91.409(b)',
            },
            last: hundred,
          } as const,
        ]
      : []),
    ...(fifty
      ? [
          {
            terms: {
              ...{ ...inspection, title: '50-hour oil service', rule: 'recurring' as const },
              ...{
                source: 'Engine maker’s manual, invented',
                everyHundredths: 5000,
                everyMonths: 4,
              },
            },
            last: fifty,
            task: 'oil-filter-change',
          },
        ]
      : []),
    ...(airplane && annual
      ? [
          {
            terms: {
              ...{ ...inspection, title: 'Emergency locator transmitter' },
              ...{
                rule: 'calendar_months' as const,
                everyCalendarMonths: 12,
                source: '14 CFR 91.207(d)',
              },
            },
            last: annual,
            task: 'elt-inspect',
          },
        ]
      : []),
    ...components.flatMap((component): Fallen[] => {
      const { kind, position, partNumber, serial, fitted, lifeHours } = component;
      const { overhaulHours, overhaulMonths, sinceOverhaulAtFitting } = component;
      const part = `${partNumber} ${serial}`;
      const words = kind.replaceAll('-', ' ');
      const name = position === kind ? words : `${words}, ${position}`;
      return [
        ...(lifeHours
          ? [
              {
                terms: {
                  ...{ ...nothing, kind: 'limit' as const, title: `Life of ${name}` },
                  ...{ rule: 'life_limit' as const, limitHundredths: parseHours(lifeHours) },
                  source: 'Limitations section of the maker’s manual, invented',
                },
                ...{ last: null, part },
              },
            ]
          : []),
        ...(overhaulHours && Number(sinceOverhaulAtFitting ?? Number.NaN) === 0
          ? [
              {
                terms: {
                  ...{ ...nothing, kind: 'overhaul' as const, title: `Overhaul of ${name}` },
                  ...{ rule: 'recurring' as const, everyHundredths: parseHours(overhaulHours) },
                  everyMonths: overhaulMonths ?? null,
                  source: 'Overhaul times of the maker, invented',
                },
                last: { ...fitted, method: 'Overhauled before it was fitted' },
                part,
              },
            ]
          : []),
      ];
    }),
  ];
}

/** The inspector enters what falls due on each aircraft, and when it was done last. */
export const programmeActs = (props: Props): Act[] =>
  readDemo('aircraft.json').map((tail) => ({
    at: props.clock.at({ day: -1, time: '17:40' }),
    by: 'hesper',
    does: async (context) => {
      for (const { terms, last, part, task } of fallenDue(tail)) {
        const [partNumber = '', serial = ''] = part?.split(' ') ?? [];
        const component = part
          ? await context.read.component.findFirst({
              where: { partNumber, serial },
              select: { id: true },
            })
          : null;
        const itemId = await addDueItem(context, {
          ...terms,
          aircraftId: props.aircraft.of(tail.registration),
          componentId: component?.id ?? null,
          taskId: task ? props.tasks.of(task) : null,
        });
        if (last)
          await recordDueEvent(context, {
            ...{ itemId, kind: 'complied', method: last.method },
            doneOn: props.clock.day(last),
            tisHundredths: parseHours(last.timeInService),
            counts: noCounts,
          });
      }
    },
  }));
