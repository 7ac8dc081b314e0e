import type { CSSProperties } from 'react';
import { Button } from '../../components/Button.tsx';
import { Caution } from '../../components/Caution.tsx';
import { Empty, Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { CalendarDate, Day, Figure, Hours, Money } from '../../components/Figure.tsx';
import { Silhouette } from '../../components/Silhouette.tsx';
import styles from './specimen.module.css';

export function NoteSpecimen() {
  return (
    <section className={styles.part}>
      <h2>Cautions, refusals, nothing yet</h2>
      <div className={styles.two}>
        <Caution
          hazards={[
            'Fuel vapour: battery off, no ignition source within 15 m.',
            'Hot parts: let the exhaust cool before you reach behind the shroud.',
            'Rotor arc: tie the blades down before you climb.',
          ]}
        >
          The maker’s manual governs.
        </Caution>
        <div className={styles.stack}>
          <ErrorNote head="Cannot plan QQ-117 on stand 2">
            Parked it is 10.9 m long and needs 12.9 m with the shop’s clearance; the stand is 12.0
            m.
          </ErrorNote>
          <ErrorNote
            head="Cannot release"
            missing={['Total time in service', 'The inspector’s certificate number']}
          >
            The entry lacks two things:
          </ErrorNote>
        </div>
        <Empty action={<Button kind="primary">Start a quote</Button>}>No quotes yet.</Empty>
        <Empty
          drawing={
            <Silhouette
              hairline
              kind="airplane_single"
              label="An airplane in hairline"
              size={{
                lengthM: 8.2,
                spanM: 10.9,
                heightM: 2.7,
                parkedLengthM: 8.2,
                parkedWidthM: 10.9,
              }}
            />
          }
          action={<Button>Book an arrival</Button>}
        >
          The floor is empty.
        </Empty>
        <Empty draws="sheet">No invoice has been issued.</Empty>
        <Empty draws="curve">Not enough history: 4 closed items, 12 are needed.</Empty>
        <Loading>Fetching the orders</Loading>
      </div>
    </section>
  );
}

const inks = ['ink', 'ink-second', 'hairline', 'touch', 'oxide', 'ochre'];
const inkWords: Record<string, string> = {
  ink: 'ink',
  'ink-second': 'second ink',
  hairline: 'hairline, never words',
  touch: 'can be touched',
  oxide: 'unairworthy, over, not sent',
  ochre: 'caution, due soon',
};

export function TypeSpecimen() {
  return (
    <section className={styles.part}>
      <h2>Type and inks</h2>
      <div className={styles.two}>
        <div>
          <p className={styles.head}>100-hour 36</p>
          <p className={styles.title}>Grey streak at the shroud 24</p>
          <p className={styles.large}>What it means for the owner 18</p>
          <p>The cabin heater takes its air from around the exhaust 15</p>
          <h3>Third heading</h3>
        </div>
        <div className={styles.stack}>
          <p>
            <Hours value={3.16} /> · <Money minor={124050n} currency="USD" showCurrency /> ·{' '}
            <Money minor={-435n} currency="USD" /> · <Figure text="1,334.5" unit="TIS" />
          </p>
          <p>
            <Day at="2026-03-14T09:05:00Z" timeZone="America/New_York" time /> ·{' '}
            <CalendarDate date="2026-03-31" />
          </p>
          <p className={styles.mono}>0123456789 1,240.50 −4.35 ×1.12</p>
          <p>
            A <a href="#sheet">way to another sheet</a> inside words.
          </p>
        </div>
      </div>
      <ul className={styles.inks}>
        {inks.map((ink) => (
          <li
            key={ink}
            style={
              {
                '--swatch': `var(--${ink})`,
                ...(ink === 'hairline' ? { color: 'var(--ink)' } : {}),
              } as CSSProperties
            }
          >
            {inkWords[ink]}
          </li>
        ))}
      </ul>
    </section>
  );
}
