import { SheetLink } from '../../components/SheetLink.tsx';
import styles from './stores-sheets.module.css';

const sheets = [
  { key: 'shelves', href: '/stores', words: 'On the shelves' },
  { key: 'orders', href: '/stores/orders', words: 'What to order' },
  { key: 'outside', href: '/stores/outside', words: 'Out with others' },
  { key: 'cores', href: '/stores/cores', words: 'Cores owed' },
] as const;

/** The sheets of the stores, each by its own address. */
export function StoresSheets({ here }: { here?: (typeof sheets)[number]['key'] }) {
  return (
    <nav className={styles.sheets} aria-label="Sheets of the stores">
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
