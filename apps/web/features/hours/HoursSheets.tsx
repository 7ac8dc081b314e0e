import { SheetsNav } from '../../components/SheetsNav.tsx';
import type { Role } from '../../components/sheets.ts';

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
    <SheetsNav
      label="Sheets of the hours"
      here={here}
      sheets={sheets.filter(({ key }) => key !== 'odd' || mayDecide(roles))}
    />
  );
}
