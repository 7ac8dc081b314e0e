import type { ReactNode } from 'react';
import { Balloon } from './Balloon.tsx';
import styles from './PartsList.module.css';

export interface PartsColumn {
  key: string;
  head: string;
  /** `figure` is mono and right-aligned, `dimension` takes what room there is. */
  kind?: 'words' | 'figure' | 'dimension';
}

export interface PartsRow {
  key: string;
  /** The number on the drawing. */
  balloon?: number;
  /** The balloon on the drawing to lead to. */
  balloonHref?: string;
  /** By the column's key; a missing one stays empty. */
  cells: Readonly<Record<string, ReactNode>>;
  /** A second line under the first column. */
  note?: ReactNode;
  /** The row that the hand is on. */
  marked?: boolean;
}

/** Some browsers forget that stacked rows are a table; said outright, the roles stay. */
const kept = {
  table: { role: 'table' },
  rowgroup: { role: 'rowgroup' },
  row: { role: 'row' },
  columnheader: { role: 'columnheader' },
  cell: { role: 'cell' },
};

/**
 * The ruled list beside a drawing. Where it is narrower than 560 px, rows stack: the first column
 * as a heading, the others beneath it with their names.
 */
export function PartsList({
  caption,
  captionHidden = false,
  columns,
  rows,
  foot = [],
}: {
  caption: string;
  captionHidden?: boolean;
  columns: readonly PartsColumn[];
  rows: readonly PartsRow[];
  /** Sums; the last one is ruled twice. */
  foot?: readonly PartsRow[];
}) {
  const balloons = rows.some((row) => row.balloon !== undefined);
  return (
    <div className={styles.place}>
      <table className={styles.list} {...kept.table}>
        <caption className={captionHidden ? 'spoken' : styles.caption}>{caption}</caption>
        <thead {...kept.rowgroup}>
          <tr {...kept.row}>
            {balloons ? (
              <th {...kept.columnheader} scope="col" data-kind="balloon">
                No.
              </th>
            ) : null}
            {columns.map((column) => (
              <th
                {...kept.columnheader}
                scope="col"
                key={column.key}
                data-kind={column.kind ?? 'words'}
              >
                {column.head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody {...kept.rowgroup}>
          {rows.map((row) => (
            <Row key={row.key} row={row} columns={columns} balloons={balloons} />
          ))}
        </tbody>
        {foot.length === 0 ? null : (
          <tfoot {...kept.rowgroup}>
            {foot.map((row) => (
              <Row key={row.key} row={row} columns={columns} balloons={balloons} />
            ))}
          </tfoot>
        )}
      </table>
    </div>
  );
}

function Row({
  row,
  columns,
  balloons,
}: {
  row: PartsRow;
  columns: readonly PartsColumn[];
  balloons: boolean;
}) {
  return (
    <tr
      {...kept.row}
      id={`row-${row.key}`}
      data-balloons={balloons ? '' : undefined}
      data-marked={row.marked === true ? '' : undefined}
    >
      {balloons ? (
        <td {...kept.cell} data-kind="balloon">
          {row.balloon === undefined ? null : (
            <Balloon
              number={row.balloon}
              {...(row.balloonHref === undefined ? {} : { href: row.balloonHref })}
            />
          )}
        </td>
      ) : null}
      {columns.map((column, index) => (
        <Cell key={column.key} column={column} note={index === 0 ? row.note : undefined}>
          {row.cells[column.key]}
        </Cell>
      ))}
    </tr>
  );
}

function Cell({
  column,
  note,
  children,
}: {
  column: PartsColumn;
  note: ReactNode;
  children: ReactNode;
}) {
  if (children === undefined || children === null) {
    return <td {...kept.cell} data-kind={column.kind ?? 'words'} />;
  }
  return (
    <td {...kept.cell} data-kind={column.kind ?? 'words'}>
      {column.kind === 'figure' ? (
        <span className={styles.head} aria-hidden="true">
          {column.head}
        </span>
      ) : null}
      {column.kind === 'figure' ? <span>{children}</span> : children}
      {note === undefined ? null : <div className={styles.note}>{note}</div>}
    </td>
  );
}
