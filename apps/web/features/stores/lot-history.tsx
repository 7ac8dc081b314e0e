import { Figure } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { dayAndTimeText } from '../../lib/figures/dates.ts';
import { againstText } from './issue-against.ts';
import type { LotOnSheet } from './lot-documents.ts';
import styles from './stores.module.css';

const kindWords = {
  receive: 'received',
  issue: 'issued',
  return: 'came back',
  scrap: 'scrapped',
  count: 'counted',
  reserved: 'reserved',
  released: 'given free',
} as const;

interface Happened {
  id: string;
  at: string;
  kind: keyof typeof kindWords;
  /** What of the shelf it changed; null where nothing moved. */
  quantity: string | null;
  words: string;
  note: string;
}

/** Everything that happened to a lot, in one order: what moved, and what was kept for orders. */
function happenedTo({ movements, reservations, part }: LotOnSheet): Happened[] {
  const moved = movements.map((movement): Happened => {
    const { id, at, kind, quantity, counted, despite, reason, by, item } = movement;
    const work =
      item === null
        ? ''
        : `${item.order.aircraft.registration}, order ${item.order.number}, ${item.position} ${item.title}`;
    const found = kind === 'count' ? `${counted} ${part.unit} were there` : '';
    return {
      id,
      at,
      kind,
      quantity,
      words: [work, found].filter((each) => each !== '').join(', '),
      note: [
        by?.name ?? 'from before',
        ...(despite.length === 0 ? [] : [`${againstText(despite)}, answered for by name`]),
        ...(reason === '' ? [] : [`“${reason}”`]),
      ].join(' · '),
    };
  });
  const kept = reservations.map(
    ({ id, at, kind, quantity, reason, by, order }): Happened => ({
      id,
      at,
      kind,
      quantity: null,
      words: `${quantity} ${part.unit} for ${order.aircraft.registration}, order ${order.number}`,
      note: [by.name, ...(reason === '' ? [] : [`“${reason}”`])].join(' · '),
    }),
  );
  return [...moved, ...kept].toSorted((one, other) => Date.parse(one.at) - Date.parse(other.at));
}

const signed = (quantity: string) =>
  quantity.startsWith('-') ? `−${quantity.slice(1)}` : quantity === '0' ? '±0' : `+${quantity}`;

/** What happened to a lot, oldest first: never changed, only added to. */
export function LotHistory({ lot, timeZone }: { lot: LotOnSheet; timeZone: string }) {
  return (
    <PartsList
      caption="What happened to it"
      columns={[
        { key: 'what', head: 'What' },
        { key: 'where', head: 'Where' },
        { key: 'at', head: 'When' },
        { key: 'quantity', head: 'On the shelf', kind: 'figure' },
      ]}
      rows={happenedTo(lot).map(({ id, at, kind, quantity, words, note }) => ({
        key: id,
        cells: {
          what: kindWords[kind],
          where: words,
          at: <span className={styles.figures}>{dayAndTimeText(at, timeZone)}</span>,
          ...(quantity !== null && {
            quantity: <Figure text={signed(quantity)} unit={lot.part.unit} />,
          }),
        },
        note,
      }))}
    />
  );
}
