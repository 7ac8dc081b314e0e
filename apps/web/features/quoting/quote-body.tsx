'use client';

import type { ComponentProps } from 'react';
import { DimensionText } from '../../components/Dimension.tsx';
import { LongDimension } from '../../components/LongDimension.tsx';
import { LinesList } from './lines-list.tsx';
import { placesOf } from './places.ts';
import styles from './quote-body.module.css';
import { QuoteDrawing } from './quote-drawing.tsx';
import { firmOf, type LineView } from './quote-figures.ts';
import { WithFindings } from './with-findings.tsx';
import type { WithFindingsData } from './with-findings-fragment.ts';

export interface QuoteFigures {
  currency: string;
  likely: bigint;
  high: bigint;
  tax: bigint;
  hours: { p10: number; p50: number; p80: number; p90: number };
  withFindings: WithFindingsData | null;
  /** By which rule for billed time the amounts were foretold; null: by hours as they are worked. */
  billedAs: string | null;
}

/** The offer itself: parts list left, drawing right, the total beneath as one long dimension. */
export function QuoteBody({
  lines,
  figures,
  aircraft,
  ceiling,
  more = false,
}: {
  lines: readonly LineView[];
  figures: QuoteFigures;
  aircraft: Pick<ComponentProps<typeof QuoteDrawing>, 'registration' | 'model'>;
  /** How far the owner's yes goes, once there is one. */
  ceiling?: bigint | undefined;
  /** It asks for more on what is agreed: no estimate, and no hours of its own. */
  more?: boolean;
}) {
  const places = placesOf(lines, ({ jasc }) => jasc);
  const flat = lines.find(({ kind }) => kind === 'flat');
  return (
    <>
      <div className={styles.columns}>
        <div>
          <LinesList lines={lines} places={places} {...figures} />
        </div>
        <div className={styles.drawing}>
          <QuoteDrawing
            {...aircraft}
            places={places}
            hrefOf={({ items }) => {
              const own = items.find(({ key }) =>
                lines.some((line) => line.key === key && line.kind === 'task'),
              );
              return `#row-${own?.key ?? flat?.key ?? items[0]?.key ?? ''}`;
            }}
          />
        </div>
      </div>
      {more ? null : (
        <div className={styles.total}>
          <LongDimension
            label="Total, net"
            unit={figures.currency}
            firm={firmOf(lines)}
            likely={figures.likely}
            nineInTen={figures.high}
            {...(ceiling === undefined ? {} : { ceiling })}
          />
          <p className={styles.how}>
            All its work together: <DimensionText estimate={figures.hours} unit="h" />
          </p>
          <p className={styles.how}>
            {firmOf(lines) === figures.high
              ? 'The hours are for planning; the price does not change with them.'
              : `The total is drawn from all the work at once: adding up the upper ends of the lines would overstate it. ${figures.billedAs ?? ''}`}
          </p>
        </div>
      )}
      {figures.withFindings === null ? null : (
        <WithFindings
          foretold={figures.withFindings}
          firm={firmOf(lines)}
          currency={figures.currency}
        />
      )}
    </>
  );
}
