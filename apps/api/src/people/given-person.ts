import type { Role } from '@fairlead/database';
import { Refused } from '../errors.ts';
import { givenText } from '../given.ts';

/** What a manager says of somebody. */
export interface PersonGiven {
  name: string;
  initials: string;
  roles: readonly Role[];
  apprentice: boolean;
}

/** Somebody's particulars, with what belongs together checked together. */
export function givenPerson({ name, initials, roles, apprentice }: PersonGiven) {
  const given = {
    name: givenText(name, 'name', { least: 1, most: 120 }),
    initials: givenText(initials, 'initials', { least: 1, most: 5 }),
    roles: [...new Set(roles)],
    apprentice,
  };
  if (!/^[\p{L}\p{N}.-]+$/u.test(given.initials))
    throw new Refused(
      'BAD_INPUT',
      `initials is "${given.initials}": needed are 1 to 5 letters or figures, as they are written beside the work.`,
      'initials',
    );
  if (given.roles.length === 0)
    throw new Refused(
      'BAD_INPUT',
      `${given.name} was given no role: needed is at least one of front desk, mechanic, inspector and manager.`,
      'roles',
    );
  if (apprentice && (!given.roles.includes('mechanic') || given.roles.includes('inspector')))
    throw new Refused(
      'BAD_INPUT',
      `${given.name} was given as an apprentice ${given.roles.includes('inspector') ? 'and inspector' : 'who is no mechanic'}: an apprentice works as a mechanic under supervision (14 CFR 43.3(d)) and inspects nothing.`,
      'apprentice',
    );
  return given;
}
