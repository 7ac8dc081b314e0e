/** How far a source goes: read in its own text, read as others print it, remembered, or common practice of the trade. */
export type SourceStanding = 'read' | 'secondary' | 'memory' | 'practice';

export interface Source {
  readonly name: string;
  readonly standing: SourceStanding;
}

/**
 * Where the rows of the tables come from. A source says that a cause goes with a sign. None of them gives
 * how often: every share is this program's judgement, which a shop's own closed findings correct.
 */
export const sources = {
  powerplant_handbook: {
    name: 'FAA-H-8083-32, chapter 10, table of troubles, as reproduced by others',
    standing: 'secondary',
  },
  powerplant_hoses: {
    name: 'FAA-H-8083-32, fuel system inspection, as reproduced by others',
    standing: 'secondary',
  },
  airframe_handbook: {
    name: 'FAA-H-8083-31, classes of fuel leaks, as reproduced by others',
    standing: 'secondary',
  },
  rotorcraft_handbook: {
    name: 'FAA-H-8083-21 (2000), vibrations, as reproduced by others',
    standing: 'secondary',
  },
  fuel_stains: { name: 'AC 43.13-1B, 8-34 b', standing: 'read' },
  jasc: { name: 'JASC code table, definition of the code', standing: 'read' },
  defect_report: {
    name: 'a defect report printed in an aviation-safety magazine in 2011',
    standing: 'secondary',
  },
  trade_article: {
    name: 'a trade article on piston engines, March 1998',
    standing: 'secondary',
  },
  owners_lists: { name: "owners' mailing lists", standing: 'secondary' },
  memory: { name: 'from memory', standing: 'memory' },
  practice: { name: 'common practice, no source', standing: 'practice' },
} as const satisfies Record<string, Source>;

export type SourceId = keyof typeof sources;

const standings: Record<SourceStanding, string> = {
  read: 'read',
  secondary: 'read at second hand',
  memory: 'not verified',
  practice: 'practice',
};

/**
 * A source in words, with how far it goes.
 *
 * @example sourceWords('practice') // → 'common practice, no source'
 * @example sourceWords('owners_lists') // → "owners' mailing lists (read at second hand)"
 */
export function sourceWords(id: SourceId): string {
  const { name, standing }: Source = sources[id];
  return standing === 'practice' || standing === 'memory'
    ? name
    : `${name} (${standings[standing]})`;
}
