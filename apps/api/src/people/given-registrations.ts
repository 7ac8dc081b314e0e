import { hasVatPrefix } from '@fairlead/money/e-invoice';
import { Refused } from '../errors.ts';
import { givenText } from '../given.ts';

export interface Registrations {
  vatNumber?: string | null | undefined;
  taxNumber?: string | null | undefined;
  registrationNumber?: string | null | undefined;
  exemptionReason?: string | null | undefined;
}

const most = { vatNumber: 40, taxNumber: 60, registrationNumber: 60, exemptionReason: 200 };

type Kept = { [Field in keyof Registrations]?: string | null };

/** What the shop is registered as: what is left out stays as it is, nothing takes away what was there. */
export function givenRegistrations(given: Registrations): Kept {
  const kept: Kept = {};
  for (const field of Object.keys(most) as (keyof Registrations)[]) {
    if (given[field] === undefined) continue;
    const text = givenText(given[field], field, { most: most[field] });
    kept[field] = text === '' ? null : text;
  }
  if (!kept.vatNumber) return kept;
  const vatNumber = kept.vatNumber.replace(/\s+/g, '').toUpperCase();
  if (!hasVatPrefix(vatNumber))
    throw new Refused(
      'BAD_INPUT',
      `vatNumber is "${vatNumber}": needed is the number with its country’s two letters before it (EN 16931, BR-CO-09), such as PT and nine figures. A number without them is the tax registration.`,
      'vatNumber',
    );
  return { ...kept, vatNumber };
}
