import { SheetLink } from '../../components/SheetLink.tsx';
import type { Role } from '../../components/sheets.ts';
import styles from './hours-sheets.module.css';

const sheets = [
  { key: 'quoted', href: '/hours', words: 'Quoted against clocked' },
  { key: 'honest', href: '/hours/honest', words: 'Are our estimates honest?' },
  { key: 'places', href: '/hours/places', words: 'What the place costs' },
  { key: 'odd', href: '/hours/odd', words: 'Times that look odd' },
  { key: 'clocks', href: '/hours/clocks', words: 'Clocks' },
] as const;

/** Who decides about odd times. */
export const mayDecide = (roles: readonly Role[]) =>
  roles.includes('manager') || roles.includes('inspector');

/** The sheets of the hours, each by its own address. */
export function HoursSheets({
  here,
  roles,
}: {
  here: (typeof sheets)[number]['key'];
  roles: readonly Role[];
}) {
  return (
    <nav className={styles.sheets} aria-label="Sheets of the hours">
      <ul>
        {sheets
          .filter(({ key }) => key !== 'odd' || mayDecide(roles))
          .map(({ key, href, words }) => (
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
