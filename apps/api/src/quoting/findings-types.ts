import { builder } from '../builder.ts';
import { globalId } from '../ids.ts';
import type { WithFindings } from './likely-findings.ts';

const LikelyFindingType = builder
  .objectRef<WithFindings['findings'][number]>('LikelyFinding')
  .implement({
    description: 'Something that tends to be found in a package, with the work that corrects it.',
    fields: (t) => ({
      taskId: t.id({
        description: 'The work that corrects it.',
        resolve: ({ taskId }) => globalId('Task', taskId),
      }),
      title: t.exposeString('title', { description: 'What that work is called.' }),
      probability: t.exposeFloat('probability', {
        description: 'How likely it is the next time, 0 to 1.',
      }),
      from: t.exposeFloat('from', {
        description: 'Its long-run share is above this, nineteen times in twenty.',
      }),
      to: t.exposeFloat('to', {
        description: 'Its long-run share is below this, nineteen times in twenty.',
      }),
      seen: t.exposeInt('seen', { description: 'Times it was found on this model.' }),
      of: t.exposeInt('of', { description: 'Times the package was done on this model.' }),
      seenElsewhere: t.exposeInt('seenElsewhere', { description: 'Times found on others.' }),
      ofElsewhere: t.exposeInt('ofElsewhere', { description: 'Times done on others.' }),
      sentence: t.exposeString('sentence', { description: 'The same in one sentence.' }),
      hoursP50: t.exposeFloat('hoursP50', { description: 'Half of such work takes less, hours.' }),
      hoursP90: t.exposeFloat('hoursP90', {
        description: 'Nine in ten of such work take less, hours.',
      }),
      parts: t.field({
        type: 'Minor',
        description: 'What its parts come to, net.',
        resolve: ({ parts }) => BigInt(parts),
      }),
    }),
  });

/** The whole of an offer with what is likely to be found. */
export const WithFindingsType = builder.objectRef<WithFindings>('WithFindings').implement({
  description:
    'What the whole may come to with what tends to be found: foretold in one simulation, never offered. What is found is offered by itself.',
  fields: (t) => ({
    likely: t.field({
      type: 'Minor',
      description: 'As likely over as under, net.',
      resolve: ({ likely }) => BigInt(likely),
    }),
    p80: t.field({
      type: 'Minor',
      description: 'Eight in ten should come out under this, net.',
      resolve: ({ p80 }) => BigInt(p80),
    }),
    high: t.field({
      type: 'Minor',
      description: 'Nine in ten should come out under this, net.',
      resolve: ({ high }) => BigInt(high),
    }),
    hoursP50: t.float({
      description: 'Hours of all its work with what is found: as likely over as under.',
      resolve: ({ hours }) => hours.p50,
    }),
    hoursP90: t.float({
      description: 'Hours of all its work with what is found: nine in ten take less.',
      resolve: ({ hours }) => hours.p90,
    }),
    sentence: t.exposeString('sentence', { description: 'The same in words.' }),
    findings: t.field({
      type: [LikelyFindingType],
      description: 'What may be found, the likeliest first.',
      resolve: ({ findings }) => findings,
    }),
  }),
});
