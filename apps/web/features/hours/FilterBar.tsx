import { Button } from '../../components/Button.tsx';
import { Select } from '../../components/Field.tsx';
import styles from './coverage.module.css';
import { type HoursFilter, narrowTo } from './filter.ts';
import type { Accuracy } from './hours-document.ts';
import { monthText } from './hours-words.ts';

/** Says "all" where a key may be empty, since an empty key is a choice of its own. */
const ALL = '\u0000';

/** Narrows the comparison to a task, a model, a span of months; the address keeps it. */
export function FilterBar({ filter, accuracy }: { filter: HoursFilter; accuracy: Accuracy }) {
  const set = (key: keyof HoursFilter, value: string) => {
    const { [key]: _, ...others } = filter;
    narrowTo(value === ALL ? others : { ...others, [key]: value });
  };
  const months = accuracy.everyMonth.map((month) => ({ value: month, words: monthText(month) }));
  const choice = (
    key: keyof HoursFilter,
    label: string,
    all: string,
    options: readonly { value: string; words: string }[],
  ) => {
    const value = filter[key] ?? ALL;
    const known = value === ALL || options.some((option) => option.value === value);
    return (
      <Select
        label={label}
        value={value}
        onChange={(event) => set(key, event.currentTarget.value)}
        options={[
          { value: ALL, words: all },
          ...options,
          // What an old link asks for, although nothing is there.
          ...(known ? [] : [{ value, words: value }]),
        ]}
      />
    );
  };
  const named = (choices: readonly { key: string; name: string }[]) =>
    choices.map(({ key, name }) => ({ value: key, words: name }));
  return (
    <fieldset className={styles.filter}>
      <legend className="spoken">Compare only</legend>
      {choice('task', 'Task', 'All tasks', named(accuracy.tasks))}
      {choice('model', 'Model', 'All models', named(accuracy.models))}
      {choice('from', 'From', 'The first month', months)}
      {choice('to', 'To', 'Today', months)}
      {Object.keys(filter).length === 0 ? null : (
        <Button onClick={() => narrowTo({})}>Compare all</Button>
      )}
    </fieldset>
  );
}
