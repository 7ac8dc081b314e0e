import { shelfLife, shelvesOf } from './shelves.ts';
import styles from './stores.module.css';
import type { Lot } from './stores-documents.ts';

/** Boxes that a bin draws; more of them say so in figures. */
const DRAWN = 5;

/** The rack from the front: a box a lot, standing where it lies. Each bin leads to its first row. */
export function ShelfDrawing({ lots, today }: { lots: readonly Lot[]; today: string }) {
  return (
    <nav className={styles.rack} aria-label="Shelves">
      {shelvesOf(lots).map((shelf) => (
        <ul key={shelf.name} className={styles.shelf}>
          {shelf.bins.map((bin) => (
            <li key={bin.name}>
              <a className={styles.bin} href={`#row-${bin.lots[0]?.id ?? ''}`}>
                <span className={styles.binName}>
                  {bin.name === '' ? <span className={styles.nowhere}>no place</span> : bin.name}
                </span>
                <span className="spoken">
                  {`, ${bin.lots.length} ${bin.lots.length === 1 ? 'lot' : 'lots'}`}
                </span>
                <span className={styles.boxes} aria-hidden="true">
                  {bin.lots.slice(0, DRAWN).map((lot) => (
                    <Box key={lot.id} past={isPast(lot, today)} />
                  ))}
                  {bin.lots.length > DRAWN ? <span>+{bin.lots.length - DRAWN}</span> : null}
                </span>
              </a>
            </li>
          ))}
        </ul>
      ))}
    </nav>
  );
}

const isPast = (lot: Lot, today: string) => shelfLife(lot.shelfLifeUntil, today).stands === 'past';

/** A carton from the front; one that is past its day is crossed out. */
function Box({ past }: { past: boolean }) {
  return (
    <svg aria-hidden="true" viewBox="0 0 20 18" width="20" height="18">
      <path
        d={past ? 'M1 1H19V17H1ZM1 1 19 17M19 1 1 17' : 'M1 1H19V17H1ZM1 6H19M8 6V10H12V6'}
        fill="none"
        stroke="currentColor"
      />
    </svg>
  );
}
