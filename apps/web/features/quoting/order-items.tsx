import { Empty } from '../../components/Empty.tsx';
import { Figure } from '../../components/Figure.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { clockText } from '../../lib/figures/hours.ts';
import type { OrderData } from './order-documents.ts';
import { itemMarks } from './order-words.ts';

/** What there is to do, in order. */
export function OrderItems({ items }: { items: OrderData['items'] }) {
  if (items.length === 0) return <Empty>There is nothing to do on this order yet.</Empty>;
  return (
    <PartsList
      caption="What there is to do"
      columns={[
        { key: 'item', head: 'Item' },
        { key: 'state', head: 'State' },
        { key: 'worked', head: 'Hands-on', kind: 'figure' },
      ]}
      rows={items.map(({ position, title, jasc, critical, state, secondsWorked, finding }) => ({
        key: `item-${position}`,
        cells: {
          item: `${position} · ${title}`,
          state: <Hatch {...itemMarks[state]} />,
          worked: <Figure text={clockText(secondsWorked)} />,
        },
        note: [
          jasc,
          ...(finding === null ? [] : [`corrects finding ${finding.number}`]),
          ...(critical ? ['wants a second pair of eyes'] : []),
        ].join(' · '),
      }))}
    />
  );
}
