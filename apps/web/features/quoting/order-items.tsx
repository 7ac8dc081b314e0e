import { Empty } from '../../components/Empty.tsx';
import { Figure } from '../../components/Figure.tsx';
import { Hatch } from '../../components/Hatch.tsx';
import { More } from '../../components/More.tsx';
import { type PartsColumn, PartsList } from '../../components/PartsList.tsx';
import { clockText } from '../../lib/figures/hours.ts';
import type { OrderData } from './order-documents.ts';
import { itemMarks } from './order-words.ts';
import { ourCostNotes } from './our-cost-words.ts';
import { PutOffAnItem } from './put-off-item.tsx';

const columns: readonly PartsColumn[] = [
  { key: 'item', head: 'Item' },
  { key: 'state', head: 'State' },
  { key: 'worked', head: 'Hands-on', kind: 'figure' },
];

/** What there is to do, in order; what is behind the mechanics is folded. */
export function OrderItems({
  items,
  mayPutOff,
}: {
  items: OrderData['items'];
  /** Whether the reader may take an item off this visit. */
  mayPutOff: boolean;
}) {
  if (items.length === 0) return <Empty>There is nothing to do on this order yet.</Empty>;
  const over = items.filter(({ state }) => ['done', 'inspected', 'put_off'].includes(state));
  const toDo = items.filter((item) => !over.includes(item));
  if (toDo.length === 0) return list('What was done', over);
  return (
    <div>
      {list('What there is to do', toDo)}
      {mayPutOff ? <PutOffAnItem items={toDo} /> : null}
      {over.length === 0 ? null : (
        <More words={`And ${over.length} done, inspected or put off`}>
          {list('What is done, inspected or put off', over, true)}
        </More>
      )}
    </div>
  );
}

function list(caption: string, items: OrderData['items'], captionHidden = false) {
  return (
    <PartsList
      caption={caption}
      captionHidden={captionHidden}
      columns={columns}
      rows={items.map((item) => {
        const { position, title, jasc, critical, state, secondsWorked, finding } = item;
        return {
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
            ...ourCostNotes(item),
          ].join(' · '),
        };
      })}
    />
  );
}
