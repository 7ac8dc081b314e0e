import { isCountry } from '@fairlead/money/e-invoice';
import { builder } from './builder.ts';
import { Refused } from './errors.ts';
import { givenText } from './given.ts';

/** Columns of a postal address, the same at the shop and at a contact. All null: none is known. */
export interface AddressColumns {
  addressLine1: string | null;
  addressLine2: string | null;
  city: string | null;
  postcode: string | null;
  country: string | null;
}

export const addressColumns = {
  addressLine1: true,
  addressLine2: true,
  city: true,
  postcode: true,
  country: true,
} as const;

interface PostalAddress {
  line1: string;
  line2: string | null;
  city: string;
  postcode: string | null;
  country: string;
}

export const PostalAddressType = builder.objectRef<PostalAddress>('PostalAddress').implement({
  description: 'Where post and invoices go.',
  fields: (t) => ({
    line1: t.exposeString('line1', { description: 'Street and number, or what stands for them.' }),
    line2: t.exposeString('line2', {
      nullable: true,
      description: 'What the first has no room for.',
    }),
    city: t.exposeString('city', { description: 'City, town or village.' }),
    postcode: t.exposeString('postcode', { nullable: true, description: 'Where there is one.' }),
    country: t.exposeString('country', { description: 'Two letters of ISO 3166-1.' }),
  }),
});

export const PostalAddressInput = builder.inputType('PostalAddressInput', {
  description: 'Where post and invoices go.',
  fields: (t) => ({
    line1: t.string({ required: true, description: 'Street and number, 1 to 120 characters.' }),
    line2: t.string({ description: 'At most 120 characters.' }),
    city: t.string({ required: true, description: '1 to 80 characters.' }),
    postcode: t.string({ description: 'At most 20 characters.' }),
    country: t.string({ required: true, description: 'Two letters of ISO 3166-1, such as PT.' }),
  }),
});

/** The address of a row; null where none is known. */
export function addressOf(row: AddressColumns): PostalAddress | null {
  const { addressLine1: line1, addressLine2: line2, city, postcode, country } = row;
  if (line1 === null || city === null || country === null) return null;
  return { line1, line2, city, postcode, country };
}

export interface GivenAddress {
  line1: string;
  line2?: string | null | undefined;
  city: string;
  postcode?: string | null | undefined;
  country: string;
}

/** An address as it was given, for its columns; null takes away what was there. */
export function givenAddress(given: GivenAddress | null): AddressColumns {
  if (given === null)
    return { addressLine1: null, addressLine2: null, city: null, postcode: null, country: null };
  const orNone = (text: string) => (text === '' ? null : text);
  const country = given.country.trim().toUpperCase();
  if (!isCountry(country))
    throw new Refused(
      'BAD_INPUT',
      `country is "${given.country.slice(0, 20)}": needed are the two letters of a country by ISO 3166-1, such as PT.`,
      'country',
    );
  return {
    addressLine1: givenText(given.line1, 'line1', { least: 1, most: 120 }),
    addressLine2: orNone(givenText(given.line2, 'line2', { most: 120 })),
    city: givenText(given.city, 'city', { least: 1, most: 80 }),
    postcode: orNone(givenText(given.postcode, 'postcode', { most: 20 })),
    country,
  };
}
