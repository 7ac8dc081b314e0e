import { Field } from '../../components/Field.tsx';
import type { Counter, CountsInput } from '../../graphql/generated/graphql.ts';

export const counters: readonly Counter[] = ['cycles', 'landings', 'starts'];
export type TypedCounts = Record<Counter, string>;
export const emptyCounts: TypedCounts = { cycles: '', landings: '', starts: '' };

/** What was typed; what cannot be read becomes −1, which the shop refuses with its sentence. */
export function countsTyped(typed: TypedCounts): CountsInput | undefined {
  const given = counters.flatMap((counter) => {
    const plain = typed[counter].trim().replaceAll(',', '');
    if (plain === '') return [];
    return [[counter, /^\d{1,7}$/.test(plain) ? Number(plain) : -1] as const];
  });
  return given.length === 0 ? undefined : Object.fromEntries(given);
}

/** One field for each of cycles, landings and starts; or for those that are asked. */
export function CountFields({
  typed,
  onTyped,
  label,
  only = counters,
  required = false,
}: {
  typed: TypedCounts;
  onTyped: (typed: TypedCounts) => void;
  label: (counter: Counter) => string;
  only?: readonly Counter[];
  required?: boolean;
}) {
  return only.map((counter) => (
    <Field
      key={counter}
      label={label(counter)}
      inputMode="numeric"
      required={required}
      value={typed[counter]}
      onChange={(event) => onTyped({ ...typed, [counter]: event.currentTarget.value })}
    />
  ));
}
