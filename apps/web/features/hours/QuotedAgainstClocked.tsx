import { Dimension } from '../../components/Dimension.tsx';
import { Empty } from '../../components/Empty.tsx';
import { Hours } from '../../components/Figure.tsx';
import { More } from '../../components/More.tsx';
import { type PartsColumn, PartsList, type PartsRow } from '../../components/PartsList.tsx';
import { commonScale } from '../../lib/figures/quantity.ts';
import { chanceRange } from './chance.ts';
import styles from './hours.module.css';
import type { QuotedItem } from './hours-document.ts';
import { LogPaper } from './LogPaper.tsx';

/** Rows that stand open; the others are drawn on the log paper and folded beneath. */
const OPEN = 12;

const columns: readonly PartsColumn[] = [
  { key: 'item', head: 'Item' },
  { key: 'quoted', head: 'Quoted', kind: 'dimension' },
  { key: 'clocked', head: 'Clocked', kind: 'figure' },
  { key: 'verdict', head: 'Came out' },
];

/** Where the clock came out on the dimension that was quoted. */
function verdict({ p10, p80, p90, actual }: QuotedItem): string {
  if (actual < p10) return 'under P10';
  if (actual > p90) return 'over P90';
  return actual > p80 ? 'within, over P80' : 'within';
}

/** The sentence that says how honest the quotes have been, and how far chance alone goes. */
export function honesty(items: readonly QuotedItem[]): string {
  const within = items.filter((item) => item.within).length;
  const { low, high } = chanceRange(items.length, 0.8);
  const judged =
    within < low
      ? 'Fewer than chance explains: the ranges quoted are too narrow.'
      : within > high
        ? 'More than chance explains: the ranges quoted are wider than they need to be.'
        : items.length < 30
          ? 'That agrees, but so few items say little yet.'
          : 'That agrees.';
  return `${within} of ${items.length} came out between P10 and P90, where eight in ten should; by chance alone ${low} to ${high} would. ${judged}`;
}

/** How honest we are: what was quoted against what the clock said. */
export function QuotedAgainstClocked({ items }: { items: readonly QuotedItem[] }) {
  if (items.length === 0) {
    return (
      <Empty draws="curve">
        No quoted item has been clocked and finished yet; the first one appears here by itself.
      </Empty>
    );
  }
  const scale = commonScale(items.flatMap(({ p90, actual }) => [p90, actual]));
  const rows = items.map(
    (item): PartsRow => ({
      key: item.itemId,
      note: `Order ${item.orderNumber}, ${item.registration}`,
      cells: {
        item: item.title,
        quoted: <Dimension estimate={item} unit="h" scale={scale} />,
        clocked: <Hours value={item.actual} />,
        verdict: verdict(item),
      },
    }),
  );
  return (
    <div className={styles.judged}>
      <div className={styles.drawn}>
        <LogPaper items={items} />
        <p className={styles.honesty}>{honesty(items)}</p>
      </div>
      <div>
        <PartsList
          caption="Finished items, newest first"
          columns={columns}
          rows={rows.slice(0, OPEN)}
        />
        {rows.length > OPEN ? (
          <More words={`And the ${rows.length - OPEN} finished before`}>
            <PartsList
              caption="Finished before"
              captionHidden
              columns={columns}
              rows={rows.slice(OPEN)}
            />
          </More>
        ) : null}
      </div>
    </div>
  );
}
