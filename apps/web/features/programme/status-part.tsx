import { PartsList } from '../../components/PartsList.tsx';
import { paperHref } from '../../lib/paper-href.ts';
import styles from './programme.module.css';
import type { AircraftOnRecord, StatusSection } from './programme-documents.ts';

/** The items of 14 CFR 91.417(a)(2), as they go with the aircraft. */
export function StatusPart({ aircraft }: { aircraft: AircraftOnRecord }) {
  return (
    <section className={styles.part} aria-labelledby="status">
      <h2 id="status">Status of the records</h2>
      {aircraft.statusSheet.map((section) => (
        <Section key={section.paragraph} section={section} />
      ))}
      <div className={styles.row} data-screen-only="">
        <a href={paperHref('status', aircraft.id)}>Status sheet, PDF, A4</a>
        <a href={paperHref('status', aircraft.id, 'letter')}>Status sheet, PDF, Letter</a>
      </div>
    </section>
  );
}

function Section({ section: { paragraph, title, note, rows } }: { section: StatusSection }) {
  const timed = rows.some(({ last, next }) => last !== '' || next !== '');
  if (rows.length === 0)
    return (
      <div>
        <h3>{title}</h3>
        <p className={styles.quiet}>
          {note} {paragraph}
        </p>
      </div>
    );
  return (
    <div>
      <PartsList
        caption={`${title}, ${paragraph}`}
        columns={[
          { key: 'what', head: 'What' },
          { key: 'status', head: timed ? 'Status' : 'Time', ...(timed ? {} : { kind: 'figure' }) },
          ...(timed
            ? [
                { key: 'last', head: 'Last' },
                { key: 'next', head: 'Next' },
              ]
            : []),
        ]}
        rows={rows.map(({ what, status, last, next }) => ({
          key: what,
          cells: { what, status, last, next },
        }))}
      />
    </div>
  );
}
