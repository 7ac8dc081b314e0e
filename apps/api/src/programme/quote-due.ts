import { allow, type Context } from '../context.ts';
import { draftQuote, soldByTime } from '../quoting/index.ts';
import { quotedAnyway } from './inspection-package.ts';
import { type DueNamed, tasksOfDue } from './tasks-of-due.ts';

export interface QuoteDueInput extends DueNamed {
  contactId: string;
  packageId: string | null;
  clientEventId: string | null;
}

/**
 * Drafts one quote for what falls due and for findings that were put off: each task once, beside a package where one is named.
 * What has to be opened for them is a task of its own and comes once, however much is done behind it; what the package opens
 * anyway does not come again.
 */
export async function quoteDue(context: Context, input: QuoteDueInput): Promise<string> {
  await allow(context, 'front_desk', 'manager');
  const { aircraftId, contactId, packageId, clientEventId } = input;
  const there = await quotedAnyway(context.read, packageId);
  const { taskIds, titles } = await tasksOfDue(context, input, there);
  return draftQuote(context, {
    ...{ aircraftId, contactId, packageId, findingId: null, clientEventId },
    tasks: taskIds.map(soldByTime),
    parts: [],
    charges: [],
    title: packageId ? null : `Due: ${titles.join(', ')}`.slice(0, 200),
    expiresOn: null,
    terms: null,
  });
}
