import { allow, type Context } from '../context.ts';
import { notFound, Refused } from '../errors.ts';
import { reviseQuote, soldByTime, wantedAgain } from '../quoting/index.ts';
import { shopToday } from '../today.ts';
import { quotedAnyway } from './inspection-package.ts';
import { tasksOfDue } from './tasks-of-due.ts';

export interface AddDueToQuoteInput {
  quoteId: string;
  /** The revision that was looked at. */
  fromRevision: number;
  itemIds: readonly string[];
  findingIds: readonly string[];
}

/**
 * Adds what falls due to a draft, as its next revision: what the draft does or opens already does not come again. Said twice it
 * is there once.
 */
export async function addDueToQuote(context: Context, input: AddDueToQuoteInput): Promise<string> {
  await allow(context, 'front_desk', 'manager');
  const { quoteId, fromRevision, itemIds, findingIds } = input;
  // load
  const quote = await wantedAgain(context.read, quoteId);
  if (!quote) throw notFound('quote');
  const { aircraftId, packageId, tasks, parts, charges } = quote;
  if (quote.findingId !== null)
    throw new Refused(
      'AGAINST_RULE',
      `Quote ${quote.number} is for a finding of a job under way: quote what falls due on its own.`,
      'quoteId',
    );
  const pack = await quotedAnyway(context.read, packageId);
  const { taskIds } = await tasksOfDue(
    context,
    { aircraftId, itemIds, findingIds },
    { ...pack, taskIds: [...pack.taskIds, ...tasks.map(({ taskId }) => taskId)] },
  );
  const today = await shopToday(context);
  // decide
  if (taskIds.length === 0) return quoteId;
  if (quote.sent)
    throw new Refused(
      'AGAINST_RULE',
      `Quote ${quote.number} was sent to its owner already: revise it on its own sheet, or quote what falls due on its own.`,
      'quoteId',
    );
  // save
  return reviseQuote(context, {
    ...{ quoteId, fromRevision, parts, charges },
    tasks: [...tasks, ...taskIds.map(soldByTime)],
    expiresOn: quote.expiresOn >= today ? quote.expiresOn : null,
    terms: null,
  });
}
