import { sayTime } from './given-shop.ts';

/** A row of the audit, as far as it is said. */
export interface Change {
  table: string;
  action: 'insert' | 'update' | 'delete';
  before: Record<string, unknown> | null;
  after: Record<string, unknown> | null;
}

/** Columns in words; one that is not here is not said. */
const columns: Record<string, Record<string, string>> = {
  shop: {
    name: 'name',
    place: 'place',
    address_line1: 'address',
    address_line2: 'address, second line',
    city: 'city',
    postcode: 'postcode',
    country: 'country',
    vat_number: 'VAT number',
    tax_number: 'tax registration',
    registration_number: 'legal registration',
    exemption_reason: 'reason for category E',
    time_zone: 'time zone',
    currency: 'currency',
    standing: 'standing',
    certificate_number: 'certificate number',
    clearance_mm: 'clearance, mm',
    billing_step: 'billing step, h',
    billing_rounding: 'billed time is rounded',
    billing_minimum: 'minimum billed of an item, h',
    time_in_service_basis: 'basis of time in service',
  },
  person: { name: 'name', initials: 'initials', roles: 'roles', apprentice: 'apprentice' },
};

const spoken = (value: unknown): string => {
  if (value === null || value === undefined || value === '') return 'none';
  if (Array.isArray(value)) return value.map(spoken).join(', ');
  if (value === true) return 'yes';
  if (value === false) return 'no';
  return String(value).replaceAll('_', ' ');
};

/** A number without the zeros that its column adds. */
const plain = (value: unknown) => String(Number(value));

/**
 * What a change was, in one line without who and when; null where there is nothing to say, such as a count alone.
 *
 * @example sayChange({ table: 'shop', action: 'update', before: { clearance_mm: 1000 }, after: { clearance_mm: 1500 } }) // → 'clearance, mm: 1000, now 1500'
 */
export function sayChange({ table, action, before, after }: Change): string | null {
  const row = after ?? before ?? {};
  if (table === 'person' && action === 'insert') return `added as ${spoken(row['roles'])}`;
  if (table === 'person' && before?.['active'] !== after?.['active'])
    return after?.['active'] ? 'works here again' : 'left the shop';
  if (table === 'shop' || table === 'person') {
    const said = Object.entries(columns[table] ?? {}).flatMap(([column, words]) => {
      const [was, is] = [spoken(before?.[column]), spoken(after?.[column])];
      return was === is ? [] : [`${words}: ${was}, now ${is}`];
    });
    return action === 'update' && said.length > 0 ? said.join('; ') : null;
  }
  if (table === 'certificate') {
    const what = `${spoken(row['kind'])} ${spoken(row['number'])}`;
    return action === 'insert'
      ? `holds ${what} from ${spoken(row['valid_from'])}${row['valid_until'] ? ` to ${spoken(row['valid_until'])}` : ''}`
      : `${what} ends on ${spoken(row['valid_until'])}`;
  }
  if (table === 'labour_rate')
    return `an hour of ${spoken(row['kind'])}: ${plain(row['rate'])} from ${spoken(row['valid_from'])}`;
  if (table === 'tax_rate')
    return `tax on ${spoken(row['category'])}: ${plain(row['rate'])} % (${spoken(row['code'])}) from ${spoken(row['valid_from'])}`;
  if (table === 'weekly_hours') return 'the week set anew';
  if (table === 'day_exception') {
    const days = `${spoken(row['first_day'])} to ${spoken(row['last_day'])}`;
    const hours =
      row['from_minute'] === null || row['from_minute'] === undefined
        ? ''
        : `, ${sayTime(Number(row['from_minute']))} to ${sayTime(Number(row['to_minute']))}`;
    return `${spoken(row['reason'])}, ${days}${hours}${action === 'delete' ? ': taken back' : ''}`;
  }
  return null;
}
