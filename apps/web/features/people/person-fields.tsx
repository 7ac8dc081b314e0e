'use client';

import { Tick } from '../../components/Choice.tsx';
import { Field } from '../../components/Field.tsx';
import styles from './people.module.css';
import { roleNotes, roles, roleWords } from './people-words.ts';
import type { PersonOnSheet } from './shop-documents.ts';

export type PersonTyped = Pick<
  PersonOnSheet['person'],
  'name' | 'initials' | 'roles' | 'apprentice'
>;

/** Name, initials and roles of somebody, new or known. */
export function PersonFields({
  typed,
  onType,
  meanwhile,
  about,
}: {
  typed: PersonTyped;
  /** What was typed in one field. */
  onType: (over: Partial<PersonTyped>) => void;
  /** What stands there by now, where somebody else changed it meanwhile. */
  meanwhile?: (name: keyof PersonTyped) => string | undefined;
  about: (...fields: string[]) => string | undefined;
}) {
  return (
    <>
      <div className={styles.fields}>
        <Field
          label="Full name"
          required
          maxLength={120}
          value={typed.name}
          hint={meanwhile?.('name')}
          wrong={about('name')}
          onChange={(event) => onType({ name: event.currentTarget.value })}
        />
        <Field
          label="Initials"
          required
          maxLength={5}
          hint={meanwhile?.('initials') ?? 'As they stand beside the work.'}
          value={typed.initials}
          wrong={about('initials')}
          onChange={(event) => onType({ initials: event.currentTarget.value })}
        />
      </div>
      <fieldset className={styles.roles}>
        <legend>Works as</legend>
        {roles.map((role) => (
          <Tick
            key={role}
            name={role}
            words={roleWords[role]}
            note={roleNotes[role]}
            ticked={typed.roles.includes(role)}
            onTick={(ticked) =>
              onType({
                roles: roles.filter((each) =>
                  each === role ? ticked : typed.roles.includes(each),
                ),
              })
            }
          />
        ))}
        {meanwhile?.('roles') === undefined ? null : <p>{meanwhile('roles')}</p>}
        <Tick
          name="apprentice"
          words="Apprentice"
          note="a mechanic under supervision (14 CFR 43.3(d))"
          ticked={typed.apprentice}
          onTick={(apprentice) => onType({ apprentice })}
        />
      </fieldset>
    </>
  );
}
