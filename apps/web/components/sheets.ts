/** What a person may be in the shop. */
export type Role = 'front_desk' | 'mechanic' | 'inspector' | 'manager';

export type SheetKey = 'floor' | 'desk' | 'bench' | 'stores' | 'books' | 'records' | 'hours';

interface SheetWord {
  key: SheetKey;
  words: string;
  href: string;
  roles: readonly Role[];
}

const everyone: readonly Role[] = ['front_desk', 'mechanic', 'inspector', 'manager'];

const sheets: readonly SheetWord[] = [
  { key: 'floor', words: 'Floor', href: '/floor', roles: everyone },
  { key: 'desk', words: 'Front desk', href: '/desk', roles: ['front_desk', 'manager'] },
  { key: 'bench', words: 'Bench', href: '/bench', roles: ['mechanic', 'inspector'] },
  { key: 'stores', words: 'Stores', href: '/stores', roles: everyone },
  { key: 'books', words: 'Books', href: '/books', roles: ['front_desk', 'manager'] },
  { key: 'records', words: 'Records', href: '/records', roles: ['inspector', 'manager'] },
  { key: 'hours', words: 'Hours', href: '/hours', roles: ['front_desk', 'inspector', 'manager'] },
];

/** The words across the top for a person of these roles, in their fixed order. */
export function sheetsFor(roles: readonly Role[]): readonly SheetWord[] {
  return sheets.filter((sheet) => sheet.roles.some((role) => roles.includes(role)));
}

/** Where a person of these roles starts: a mechanic at the bench, everyone else at the floor. */
export function homeFor(roles: readonly Role[]): string {
  const worksOnly = roles.length > 0 && roles.every((role) => role === 'mechanic');
  return worksOnly ? '/bench' : '/floor';
}
