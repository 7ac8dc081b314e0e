'use client';

import { useRouter } from 'next/navigation';
import { type FormEvent, useEffect, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Field } from '../../components/Field.tsx';
import { SheetLink } from '../../components/SheetLink.tsx';
import { request } from '../../graphql/request.ts';
import { canReadCodes, partCodes, readCode } from '../../lib/read-code.ts';
import { lotHref, partHref } from './addresses.ts';
import { oneAddress, ownAddress } from './code-address.ts';
import { FindInStoresDocument, type FoundInStores } from './find-documents.ts';
import own from './find-field.module.css';
import styles from './stores.module.css';

/**
 * Finds on the shelves: what is typed narrows the list as one types; a whole number, typed with Enter, by a hand scanner (which
 * types and ends with Enter) or read by the camera, opens its lot or part.
 */
export function FindField({
  wanted,
  onWanted,
}: {
  wanted: string;
  onWanted: (words: string) => void;
}) {
  const router = useRouter();
  const [found, setFound] = useState<{ code: string; what: FoundInStores }>();
  const [wrong, setWrong] = useState<string>();
  const [busy, setBusy] = useState<string>();
  // Whether there is a camera to read by is known in the browser alone.
  const [reads, setReads] = useState(false);
  useEffect(() => setReads(canReadCodes()), []);
  const look = async (code: string) => {
    const own = ownAddress(code, globalThis.location.origin);
    if (own !== null) return router.push(own);
    const { findInStores: what } = await request(FindInStoresDocument, { code });
    const address = oneAddress(what);
    if (address !== null) return router.push(address);
    setFound({ code, what });
  };
  const doing = async (says: string, work: () => Promise<void>) => {
    setBusy(says);
    setWrong(undefined);
    setFound(undefined);
    try {
      await work();
    } catch (problem) {
      setWrong(problem instanceof Error ? problem.message : 'The camera does not answer.');
    }
    setBusy(undefined);
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const code = wanted.trim();
    if (code !== '') void doing('Looking', () => look(code));
  };
  return (
    <div className={own.find}>
      <form onSubmit={submit}>
        <Field
          label="Find"
          type="search"
          hint="Part, number, batch or place; Enter opens a whole number"
          wrong={wrong}
          value={wanted}
          onChange={(event) => onWanted(event.currentTarget.value)}
        />
      </form>
      {reads ? (
        <Button
          busy={busy}
          onClick={() =>
            void doing('Looking for a code', async () => {
              const code = await readCode(partCodes);
              onWanted(code);
              await look(code);
            })
          }
        >
          Read a code by camera
        </Button>
      ) : null}
      <div role="status">{found === undefined ? null : <Found {...found} />}</div>
    </div>
  );
}

function Found({ code, what: { lots, parts } }: { code: string; what: FoundInStores }) {
  if (lots.length + parts.length === 0)
    return (
      <p className={styles.second}>
        No part, batch, serial number or certificate of this shop is “{code}”.
      </p>
    );
  return (
    <ul className={styles.documents} aria-label={`What “${code}” names`}>
      {parts.map(({ id, number, title, shortage }) => (
        <li key={id}>
          Part{' '}
          <SheetLink href={partHref(id)}>
            {number}, {title}
          </SheetLink>
          {shortage === null ? null : <span className={styles.second}>{shortage}</span>}
        </li>
      ))}
      {lots.map(({ id, batch, bin, onHand, part }) => (
        <li key={id}>
          Lot{' '}
          <SheetLink href={lotHref(id)}>
            {part.title}, {batch}
          </SheetLink>
          , {onHand} {part.unit} {bin === '' ? '' : `in ${bin}`}
        </li>
      ))}
    </ul>
  );
}
