import { useState } from 'react';
import { Select } from '../../components/Field.tsx';
import { Figure } from '../../components/Figure.tsx';
import { PartsList } from '../../components/PartsList.tsx';
import { differenceText, quantityText } from '../../lib/figures/quantity.ts';
import type { RevisionData } from './quote-documents.ts';
import styles from './quote-sheet.module.css';
import { type LineDifference, revisionDifferences } from './revision-differences.ts';

/** What the newest revision changed of an earlier one, side by side. */
export function ComparedRevisions({ revisions }: { revisions: readonly RevisionData[] }) {
  const [newest, ...earlier] = revisions;
  const [against, setAgainst] = useState<number>();
  const other = earlier.find(({ revision }) => revision === against) ?? earlier[0];
  if (newest === undefined || other === undefined) return null;
  const { currency } = newest;
  const rows = revisionDifferences(other.lines, newest.lines);
  const figures = ({ from, to }: Pick<LineDifference, 'from' | 'to'>) => ({
    from: <Amount of={from} currency={currency} />,
    to: <Amount of={to} currency={currency} />,
    change: <Figure text={differenceText(from ?? 0n, to ?? 0n, currency)} unit={currency} />,
  });
  const whole = (key: 'likely' | 'high', what: string) => ({
    key,
    cells: { what, ...figures({ from: BigInt(other[key]), to: BigInt(newest[key]) }) },
  });
  return (
    <section className={styles.part}>
      {earlier.length < 2 ? null : (
        <Select
          label="Revision to compare with"
          value={`${other.revision}`}
          onChange={(event) => setAgainst(Number(event.currentTarget.value))}
          options={earlier.map(({ revision }) => ({
            value: `${revision}`,
            words: `revision ${revision}`,
          }))}
        />
      )}
      <PartsList
        caption={`What revision ${newest.revision} changed of revision ${other.revision}`}
        columns={[
          { key: 'what', head: 'Line, likely, net' },
          { key: 'from', head: `Rev. ${other.revision}`, kind: 'figure' },
          { key: 'to', head: `Rev. ${newest.revision}`, kind: 'figure' },
          { key: 'change', head: 'Change', kind: 'figure' },
        ]}
        rows={rows.map((row) => ({
          key: row.key,
          ...(row.words !== '' && { note: row.words }),
          cells: { what: row.title, ...figures(row) },
        }))}
        foot={[whole('likely', 'The whole, likely'), whole('high', 'The whole, nine in ten under')]}
      />
      {rows.length === 0 ? <p>No line changed.</p> : null}
    </section>
  );
}

const Amount = ({ of, currency }: { of: bigint | null; currency: string }) =>
  of === null ? '—' : <Figure text={quantityText(of, currency)} unit={currency} />;
