import type { Metadata } from 'next';
import { NewQuote } from '../../../../features/quoting/new-quote.tsx';

export const metadata: Metadata = { title: 'New quote' };

type Given = string | string[] | undefined;
const one = (given: Given) => (typeof given === 'string' && given !== '' ? given : undefined);

export default async function NewQuotePage({
  searchParams,
}: {
  searchParams: Promise<{ aircraft?: Given; finding?: Given; task?: Given; revise?: Given }>;
}) {
  const { aircraft, finding, task, revise } = await searchParams;
  return (
    <NewQuote
      aircraftId={one(aircraft)}
      findingId={one(finding)}
      taskId={one(task)}
      reviseId={one(revise)}
    />
  );
}
