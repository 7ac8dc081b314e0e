import { parseHours } from '@fairlead/airworthiness';
import { readDemo } from '../../../../prisma/demo/data.ts';
import { countsUnder, noCounts } from '../programme/counts.ts';
import { addDirective } from '../programme/directives/add-directive.ts';
import { decideDirective } from '../programme/directives/decide-directive.ts';
import type { Act } from './play.ts';
import type { Props } from './story.ts';

const hours = (text: string | undefined) => (text === undefined ? null : Number(parseHours(text)));

/** The inspector enters what was published, and decides on some of it; some waits for a decision. */
export const directiveActs = (props: Props): Act[] => [
  {
    at: props.clock.at({ day: -1, time: '17:50' }),
    by: 'hesper',
    does: async (context) => {
      for (const { key: _, decisions, reaches, task, ...words } of readDemo('directives.json')) {
        const directiveId = await addDirective(context, {
          ...{ kind: words.kind, authority: words.authority, number: words.number },
          ...{ revision: words.revision, subject: words.subject, method: words.method },
          revisedOn: props.clock.day(words.revisedOn),
          effectiveOn: props.clock.day(words.effectiveOn),
          rule: words.everyHours === undefined ? 'once' : 'recurring',
          ...{ withinHundredths: hours(words.withinHours), withinDays: words.withinDays ?? null },
          ...{ limitHundredths: null, limitDate: null, whicheverLast: false },
          ...countsUnder('within', noCounts),
          ...countsUnder('limit', noCounts),
          ...countsUnder('every', noCounts),
          ...{ everyHundredths: hours(words.everyHours), everyMonths: null, everyDays: null },
          ...{ everyCalendarMonths: null, terminating: words.terminating ?? '' },
          ...{ taskId: props.tasks.of(task), supersedesId: null },
          reaches: reaches.map(({ model, partNumber = '', serials }) => ({
            modelId: model === undefined ? null : props.models.of(model),
            ...{ partNumber, serials },
          })),
        });
        for (const { aircraft, binds, reason } of decisions)
          await decideDirective(context, {
            ...{ directiveId, aircraftId: props.aircraft.of(aircraft), componentId: null },
            ...{ binds, reason, limitHundredths: null, limitDate: null, limitCounts: noCounts },
          });
      }
    },
  },
];
