'use client';

import { useState } from 'react';
import { Field, Select } from '../../../components/Field.tsx';
import { request } from '../../../graphql/request.ts';
import { moneyText } from '../../../lib/figures/money.ts';
import { typedAmount } from '../../books/invoice-figures.ts';
import { useDoing } from '../../quoting/use-answer.ts';
import { FormFrame } from './form-frame.tsx';
import { BillOutsideDocument, type OrderOutside } from './outside-documents.ts';
import type { OutsideJob } from './outside-job.ts';

const ON_TOP = 'on top';

/** What the other shop bills, and how the customer pays it. */
export function BillForm({
  job,
  order,
  currency,
  onBack,
}: {
  job: OutsideJob;
  order: OrderOutside;
  currency: string;
  onBack: () => void;
}) {
  const [typed, setTyped] = useState({ reference: '', cost: '', percent: '', by: ON_TOP });
  const type = (change: Partial<typeof typed>) => setTyped({ ...typed, ...change });
  const cost = typedAmount(typed.cost, currency);
  const percent = typed.percent.trim().replace(',', '.');
  const percentIsGood = percent === '' || /^\d{1,4}(\.\d{1,4})?$/.test(percent);
  const onTop = typed.by === ON_TOP;
  const agreed = order.quotes
    .filter(({ state }) => state === 'accepted')
    .flatMap(({ newest }) => newest.lines.filter(({ charge }) => charge === 'outside_work'));
  const billing = useDoing(
    async () =>
      (
        await request(BillOutsideDocument, {
          input: {
            ...{ jobId: job.id, reference: typed.reference, cost: cost ?? '0' },
            percent: onTop && percent !== '' ? percent : null,
            quoteLineId: onTop ? null : typed.by,
          },
        })
      ).result,
    onBack,
  );
  return (
    <FormFrame
      name={`Their bill for “${job.what}”`}
      words={
        onTop
          ? 'It is charged on the order with the mark-up. What goes past the owner’s yes is not billed until it is agreed.'
          : 'The price of the quote is firm: the customer pays that, whatever the bill.'
      }
      yes="Keep the bill"
      ready={
        typed.reference.trim() !== '' && cost !== null && cost !== '0' && (!onTop || percentIsGood)
      }
      doing={billing}
      onYes={() => billing.mutate(undefined)}
      onBack={onBack}
    >
      <Field
        label="Number of the bill"
        maxLength={60}
        value={typed.reference}
        onChange={(event) => type({ reference: event.currentTarget.value })}
      />
      <Field
        label="It says, before tax"
        figures
        inputMode="decimal"
        unit={currency}
        value={typed.cost}
        wrong={
          typed.cost !== '' && cost === null
            ? `"${typed.cost}" is no amount of ${currency}: needed are figures such as 1,240.00.`
            : undefined
        }
        onChange={(event) => type({ cost: event.currentTarget.value })}
      />
      {agreed.length === 0 ? null : (
        <Select
          label="The customer pays it"
          value={typed.by}
          onChange={(event) => type({ by: event.currentTarget.value })}
          options={[
            { value: ON_TOP, words: 'as a charge on top' },
            ...agreed.map(({ id, title, likely }) => ({
              value: id,
              words: `within “${title}” of the quote, ${moneyText(BigInt(likely), currency)}`,
            })),
          ]}
        />
      )}
      {onTop ? (
        <Field
          label="Mark-up"
          figures
          inputMode="decimal"
          unit="%"
          value={typed.percent}
          wrong={
            percentIsGood
              ? undefined
              : `"${typed.percent}" is no per cent: needed are figures such as 15 or 12.5.`
          }
          onChange={(event) => type({ percent: event.currentTarget.value })}
        />
      ) : null}
    </FormFrame>
  );
}
