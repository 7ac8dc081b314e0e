import { Field } from './Field.tsx';

export interface TypedAddress {
  line1: string;
  line2: string;
  city: string;
  postcode: string;
  country: string;
}

/** What is kept of an address, for typing over it. */
export const typedAddress = (
  kept: { [Part in keyof TypedAddress]: string | null } | null,
): TypedAddress => ({
  line1: kept?.line1 ?? '',
  line2: kept?.line2 ?? '',
  city: kept?.city ?? '',
  postcode: kept?.postcode ?? '',
  country: kept?.country ?? '',
});

/** What goes to the API: null where every field is empty. */
export const givenAddress = (typed: TypedAddress): TypedAddress | null =>
  Object.values(typed).every((part) => part.trim() === '') ? null : typed;

const parts = [
  ['line1', 'Address'],
  ['line2', 'Address, second line'],
  ['postcode', 'Postcode'],
  ['city', 'City'],
  ['country', 'Country, two letters'],
] as const;

/** The fields of a postal address. Whoever fills in one for somebody else has no use for the browser's own. */
export function AddressFields({
  typed,
  onType,
  wrong,
  hint,
}: {
  typed: TypedAddress;
  onType: (part: Partial<TypedAddress>) => void;
  /** What was refused of a part. */
  wrong: (part: keyof TypedAddress) => string | undefined;
  hint?: (part: keyof TypedAddress) => string | undefined;
}) {
  return parts.map(([part, label]) => (
    <Field
      key={part}
      label={label}
      autoComplete="off"
      figures={part === 'country' || part === 'postcode'}
      maxLength={part === 'country' ? 2 : undefined}
      value={typed[part]}
      wrong={wrong(part)}
      hint={hint?.(part)}
      onChange={(event) => {
        const { value } = event.currentTarget;
        onType({ [part]: part === 'country' ? value.toUpperCase() : value });
      }}
    />
  ));
}
