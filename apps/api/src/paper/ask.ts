import { execute, parse } from 'graphql';
import type { Context } from '../context.ts';
import { refusalFrom } from '../errors.ts';
import { schema } from '../schema.ts';

export interface PaperAddress {
  line1: string;
  line2: string | null;
  city: string;
  postcode: string | null;
  country: string;
}

/** Facts of the shop that every paper carries. */
export interface PaperShop {
  name: string;
  place: string;
  timeZone: string;
  currency: string;
  postalAddress: PaperAddress | null;
  vatNumber: string | null;
  taxNumber: string | null;
  registrationNumber: string | null;
}

export const SHOP =
  'viewer { shop { name place timeZone currency postalAddress { line1 line2 city postcode country } vatNumber taxNumber registrationNumber } }';

/**
 * Asks the API's own schema, as the page does, in the request's context: so that a paper can say nothing
 * else than its page, and nothing that the person signed in may not see.
 *
 * @typeParam Answer the shape that the document asks for; a test asks every document
 * @throws Refused where the schema refuses, and whatever else went wrong as it was thrown
 */
export async function ask<Answer>(
  context: Context,
  document: string,
  variables: Record<string, unknown>,
): Promise<Answer> {
  const { data, errors } = await execute({
    schema,
    document: parse(document),
    contextValue: context,
    variableValues: variables,
  });
  const [error] = errors ?? [];
  if (error) throw refusalFrom(error) ?? error.originalError ?? error;
  return data as Answer;
}
