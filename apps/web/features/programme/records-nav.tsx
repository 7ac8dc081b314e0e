import { SheetsNav } from '../../components/SheetsNav.tsx';

const sheets = [
  { key: 'orders', href: '/records', words: 'Orders' },
  { key: 'directives', href: '/records/directives', words: 'Directives' },
  { key: 'parts', href: '/records/parts', words: 'Parts with times' },
  { key: 'deadlines', href: '/records/deadlines', words: 'Deadlines' },
] as const;

/** The sheets of the records, each by its own address. */
export function RecordsNav({ here }: { here?: (typeof sheets)[number]['key'] }) {
  return <SheetsNav label="Sheets of the records" sheets={sheets} here={here} />;
}
