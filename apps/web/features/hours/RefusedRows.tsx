import { More } from '../../components/More.tsx';
import { type PartsColumn, PartsList } from '../../components/PartsList.tsx';
import { groupThousands } from '../../lib/figures/hours.ts';
import type { OnDesk } from './hours-document.ts';
import { refusalText } from './hours-words.ts';
import styles from './import.module.css';

/** Refusals that stand open. */
const OPEN = 10;

const columns: readonly PartsColumn[] = [
  { key: 'line', head: 'Line', kind: 'figure' },
  { key: 'what', head: 'What is wrong, and what would be right' },
];

/** What is wrong in the file, line by line; all of it as a file to mend. */
export function RefusedRows({ upload }: { upload: OnDesk }) {
  const { firstRefusals, refusals, refusedFile, refusedRows } = upload;
  if (firstRefusals.length === 0) return null;
  const rows = firstRefusals.map((refusal, index) => ({
    key: `refusal-${index}`,
    cells: { line: groupThousands(String(refusal.line)), what: refusalText(refusal) },
  }));
  return (
    <div className={styles.refused}>
      <PartsList
        caption={refusedRows > 0 ? 'Refused' : 'What is wrong with the file'}
        columns={columns}
        rows={rows.slice(0, OPEN)}
      />
      {rows.length > OPEN ? (
        <More words={`And ${rows.length - OPEN} more`}>
          <PartsList
            caption="Refused, the others"
            captionHidden
            columns={columns}
            rows={rows.slice(OPEN)}
          />
        </More>
      ) : null}
      {refusals > rows.length ? (
        <p>
          {groupThousands(String(refusals - rows.length))} further refusals are only in the file of
          refused rows.
        </p>
      ) : null}
      {typeof refusedFile === 'string' ? (
        <p>
          <a href={refusedFile} download>
            The{' '}
            {refusedRows === 1
              ? 'refused row'
              : `${groupThousands(String(refusedRows))} refused rows`}{' '}
            as a file, each with its reason
          </a>
          : mend it and import it as it is.
        </p>
      ) : null}
    </div>
  );
}
