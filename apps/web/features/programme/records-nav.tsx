import { SheetLink } from '../../components/SheetLink.tsx';
import styles from './programme.module.css';

const sheets = [
  { key: 'orders', href: '/records', words: 'Orders' },
  { key: 'directives', href: '/records/directives', words: 'Directives' },
  { key: 'parts', href: '/records/parts', words: 'Parts with times' },
  { key: 'deadlines', href: '/records/deadlines', words: 'Deadlines' },
] as const;

/** The sheets of the records, each by its own address. */
export function RecordsNav({ here }: { here?: (typeof sheets)[number]['key'] }) {
  return (
    <nav className={styles.sheets} aria-label="Sheets of the records">
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
