import type { PaperAddress, PaperShop } from './ask.ts';

const ADDRESS = 'postalAddress { line1 line2 city postcode country }';
/** Asked of whoever a paper is for. */
export const CONTACT = `name email phone ${ADDRESS}`;
/** Asked of the two sides of an invoice, as they were when it was issued. */
export const PARTIES = `seller { name ${ADDRESS} vatNumber taxNumber registrationNumber } buyer { name ${ADDRESS} }`;

export interface PaperContact {
  name: string;
  email: string | null;
  phone: string | null;
  postalAddress: PaperAddress | null;
}

const given = (lines: readonly (string | null)[]): string[] =>
  lines.filter((line) => line !== null && line !== '') as string[];

const countries = new Intl.DisplayNames('en', { type: 'region' });

/**
 * A postal address as lines.
 *
 * @example addressLines({ line1: '4 Quay', line2: null, city: 'Ebbsay', postcode: 'EB 1', country: 'PT' })
 * // → ['4 Quay', 'Ebbsay, EB 1', 'Portugal']
 */
export const addressLines = ({ line1, line2, city, postcode, country }: PaperAddress): string[] =>
  given([line1, line2, given([city, postcode]).join(', '), countries.of(country) ?? country]);

/** Whoever a paper is for: where their post goes, and how they are reached. */
export const contactLines = ({ name, email, phone, postalAddress }: PaperContact): string[] =>
  given([name, ...(postalAddress ? addressLines(postalAddress) : []), email, phone]);

/** The shop as it is found: its postal address, or in words where it has said none. */
export const shopLines = ({
  name,
  place,
  postalAddress,
}: Pick<PaperShop, 'name' | 'place' | 'postalAddress'>): string[] => [
  name,
  ...(postalAddress ? addressLines(postalAddress) : [place]),
];

/** The shop as whoever asks for money: with what it is registered as, where it said that. */
export const sellerLines = (shop: Omit<PaperShop, 'timeZone' | 'currency'>): string[] => [
  ...shopLines(shop),
  ...given([
    shop.vatNumber && `VAT number ${shop.vatNumber}`,
    shop.taxNumber && `Tax registration ${shop.taxNumber}`,
    shop.registrationNumber && `Registration ${shop.registrationNumber}`,
  ]),
];
