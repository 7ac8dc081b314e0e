import { SheetsNav } from '../../components/SheetsNav.tsx';

const sheets = [
  { key: 'shelves', href: '/stores', words: 'On the shelves' },
  { key: 'orders', href: '/stores/orders', words: 'What to order' },
  { key: 'outside', href: '/stores/outside', words: 'Out with others' },
  { key: 'cores', href: '/stores/cores', words: 'Cores owed' },
] as const;

/** The sheets of the stores, each by its own address. */
export function StoresSheets({ here }: { here?: (typeof sheets)[number]['key'] }) {
  return <SheetsNav label="Sheets of the stores" sheets={sheets} here={here} />;
}
