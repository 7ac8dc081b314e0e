import { Figure, Money } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { moneyText, roundMoneyText } from '../../lib/figures/money.ts';
import type { OrderData } from './order-documents.ts';
import styles from './order-sheet.module.css';
import { quoteMarks } from './quote-words.ts';

/** What was agreed, what the work has come to, and what is past the owner's yes. */
export function OrderAccount({ order, currency }: { order: OrderData; currency: string }) {
  const ahead = order.costAtCompletion;
  const beyond = order.beyondAuthority === null ? null : BigInt(order.beyondAuthority);
  return (
    <PartsList
      caption={`Agreed and worked, ${currency} net`}
      columns={[
        { key: 'what', head: 'What' },
        { key: 'amount', head: 'Amount', kind: 'figure' },
      ]}
      rows={order.quotes.map(({ id, number, title, state, finding, newest }) => ({
        key: `quote-${number}`,
        cells: {
          what: (
            <a href={`/desk/quotes/${id}`}>
              Quote {number}, {finding === null ? title : `finding ${finding.number}: ${title}`}
            </a>
          ),
          amount: ceilingOf(newest.decisions, currency),
        },
        note: state === 'accepted' ? 'accepted, up to this' : quoteMarks[state].word,
      }))}
      foot={[
        {
          key: 'agreed',
          cells: {
            what: 'The owner’s yes goes up to',
            amount: <Money minor={BigInt(order.agreed)} currency={currency} />,
          },
          ...(order.overrunAllowed === '0'
            ? {}
            : {
                note: `and ${moneyText(BigInt(order.overrunAllowed), currency)} past it without asking, by the shop’s own rule`,
              }),
        },
        {
          key: 'cost',
          cells: {
            what: 'The work has come to',
            amount:
              order.costSoFar === null ? (
                'no rate for today'
              ) : (
                <Money minor={BigInt(order.costSoFar)} currency={currency} />
              ),
          },
        },
        ...(ahead === null
          ? []
          : [
              {
                key: 'ahead',
                cells: {
                  what: 'Done, as it stands now, it likely comes to',
                  amount: <Figure text={roundMoneyText(BigInt(ahead.p50), currency)} places={2} />,
                },
                note: aheadWords(ahead, order.agreed, currency),
              },
            ]),
        ...(order.margin === null
          ? []
          : [
              {
                key: 'margin',
                cells: {
                  what: 'Left of it so far, after what it cost us (manager only)',
                  amount: <Money minor={BigInt(order.margin.left)} currency={currency} />,
                },
                note: marginWords(order.margin, currency),
              },
            ]),
        ...(beyond === null || beyond === 0n
          ? []
          : [
              {
                key: 'beyond',
                cells: {
                  what: (
                    <span className={styles.over}>
                      Beyond authority: not billed until agreed or written off
                    </span>
                  ),
                  amount: (
                    <span className={styles.over}>
                      <Money minor={beyond} currency={currency} />
                    </span>
                  ),
                },
              },
            ]),
      ]}
    />
  );
}

/** The range at its end, and whether the owner has to be asked before it is reached. */
function aheadWords(
  { p10, p90 }: NonNullable<OrderData['costAtCompletion']>,
  agreed: string,
  currency: string,
): string {
  const range = `${roundMoneyText(BigInt(p10), currency)} to ${roundMoneyText(BigInt(p90), currency)} in eight of ten, from the hours left given those clocked`;
  if (BigInt(p90) <= BigInt(agreed)) return range;
  return `${range}; ask the owner before it passes what was agreed`;
}

const marginWords = (
  { worth, labour, parts, charges, since }: NonNullable<OrderData['margin']>,
  currency: string,
): string => {
  const say = (minor: string) => moneyText(BigInt(minor), currency);
  return `${say(worth)} agreed and worked, less ${say(labour)} hours, ${say(parts)} parts, ${say(charges)} of others${since === null ? '' : '; counted from the sale of the aircraft on'}`;
};

function ceilingOf(
  decisions: OrderData['quotes'][number]['newest']['decisions'],
  currency: string,
) {
  const ceiling = decisions.find(({ choice }) => choice === 'go_ahead')?.ceiling ?? null;
  return ceiling === null ? undefined : <Money minor={BigInt(ceiling)} currency={currency} />;
}
