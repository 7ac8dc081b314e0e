'use client';

import { useRouter } from 'next/navigation';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { request } from '../../graphql/request.ts';
import { moneyText } from '../../lib/figures/money.ts';
import { AskForMoreDocument } from './beyond-documents.ts';
import { useDoing } from './use-answer.ts';

/** Drafts the request for so much more, and opens it to be sent. */
export function AskForMore({
  orderId,
  amount,
  currency,
}: {
  orderId: string;
  /** Net, minor units. */
  amount: string;
  currency: string;
}) {
  const router = useRouter();
  const asking = useDoing(async () => {
    const { answer } = await request(AskForMoreDocument, { input: { orderId, amount } });
    if (answer.__typename === 'Quote') router.push(`/desk/quotes/${encodeURIComponent(answer.id)}`);
    return answer;
  });
  return (
    <>
      {asking.error ? <ErrorNote head="Not drafted">{asking.error.message}</ErrorNote> : null}
      <p data-screen-only="">
        <Button
          busy={asking.isPending ? 'Drafting' : undefined}
          onClick={() => asking.mutate(undefined)}
        >
          Ask the owner for {moneyText(BigInt(amount), currency)} {currency} more
        </Button>
      </p>
    </>
  );
}
