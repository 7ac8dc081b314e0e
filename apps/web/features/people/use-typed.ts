'use client';

import { useState } from 'react';

/**
 * What somebody types over what is kept. A field they left alone follows what is kept; one they wrote in keeps their
 * words, also when the sheet is read again because somebody else came first, and `meanwhile` says what stands there now.
 */
export function useTyped<Values extends object>(kept: Values) {
  const [mine, setMine] = useState<Partial<Values>>({});
  const [found, setFound] = useState<Partial<Values>>({});
  return {
    typed: { ...kept, ...mine },
    type(over: Partial<Values>) {
      const touched = Object.keys(over) as (keyof Values)[];
      const first = Object.fromEntries(touched.map((name) => [name, kept[name]]));
      setMine((before) => ({ ...before, ...over }));
      setFound((before) => ({ ...first, ...before }));
    },
    /** What is kept counts again, in every field. */
    forget() {
      setMine({});
      setFound({});
    },
    /** What somebody else wrote since in a field of mine, where it is not what I wrote. */
    meanwhile(name: keyof Values, words: (value: Values[keyof Values]) => string = String) {
      if (!(name in mine)) return undefined;
      const now = said(kept[name]);
      if (now === said(found[name]) || now === said(mine[name])) return undefined;
      return `There now: ${words(kept[name]) || 'nothing'}. Saving puts yours in its place.`;
    },
  };
}

const said = (value: unknown) => JSON.stringify(value);
