import { SheetLink } from './SheetLink.tsx';
import styles from './SheetsNav.module.css';

export interface NavSheet {
  key: string;
  href: string;
  words: string;
}

/** The sheets of one subject, each by its own address, above what one of them shows. */
export function SheetsNav({
  label,
  sheets,
  here,
}: {
  label: string;
  sheets: readonly NavSheet[];
  /** The key of the one that is shown; left out on a sheet behind them. */
  here?: string | undefined;
}) {
  return (
    <nav className={styles.sheets} aria-label={label}>
      <ul>
        {sheets.map(({ key, href, words }) => (
          <li key={key}>
            <SheetLink href={href} aria-current={key === here ? 'page' : undefined}>
              {words}
            </SheetLink>
          </li>
        ))}
      </ul>
    </nav>
  );
}
