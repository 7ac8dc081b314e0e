'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Select } from '../../components/Field.tsx';
import type { MakeOwnerLinkInput } from '../../graphql/generated/graphql.ts';
import { request } from '../../graphql/request.ts';
import { dayText } from '../../lib/figures/dates.ts';
import type { Viewer } from '../../lib/use-viewer.ts';
import { contactOptions } from '../quoting/contact-options.ts';
import { useDoing } from '../quoting/use-answer.ts';
import {
  MakeOwnerLinkDocument,
  type OwnerLinkData,
  OwnerLinksDocument,
  RevokeOwnerLinkDocument,
} from './link-documents.ts';
import styles from './owner-links.module.css';

type Reaches = Pick<MakeOwnerLinkInput, 'orderId' | 'quoteId'>;

/** The owner's page from the desk: who has a link to it, a new one, and taking one back. */
export function OwnerLinks({
  reaches,
  contacts,
  shop,
}: {
  reaches: Reaches;
  contacts: Parameters<typeof contactOptions>[0];
  shop: Pick<Viewer['shop'], 'timeZone' | 'currency'>;
}) {
  const links = useQuery({
    queryKey: ['owner-links', reaches],
    queryFn: async () => (await request(OwnerLinksDocument, reaches)).ownerLinks,
  });
  return (
    <section className={styles.part} data-screen-only="" aria-label="The owner’s page">
      <h2>The owner’s page</h2>
      <MakeLink reaches={reaches} options={contactOptions(contacts, shop.currency)} />
      {links.error === null ? null : (
        <ErrorNote head="No links to show">{links.error.message}</ErrorNote>
      )}
      {links.data === undefined || links.data.length === 0 ? null : (
        <ul className={styles.links}>
          {links.data.map((link) => (
            <MadeLink key={link.id} link={link} timeZone={shop.timeZone} />
          ))}
        </ul>
      )}
    </section>
  );
}

function MakeLink({
  reaches,
  options,
}: {
  reaches: Reaches;
  options: ReturnType<typeof contactOptions>;
}) {
  const [contactId, setContactId] = useState(options[0]?.value ?? '');
  const [days, setDays] = useState('30');
  const [made, setMade] = useState<string | null>(null);
  const make = useDoing(async (input: MakeOwnerLinkInput) => {
    const { makeOwnerLink } = await request(MakeOwnerLinkDocument, { input });
    if (makeOwnerLink.__typename === 'MadeOwnerLink')
      setMade(new URL(makeOwnerLink.url, window.location.origin).href);
    return makeOwnerLink;
  });
  return (
    <>
      <div className={styles.make}>
        <Select
          label="A private link for"
          value={contactId}
          onChange={(event) => setContactId(event.currentTarget.value)}
          options={options}
        />
        <Select
          label="Opens for"
          value={days}
          onChange={(event) => setDays(event.currentTarget.value)}
          options={['7', '30', '90'].map((value) => ({ value, words: `${value} days` }))}
        />
        <Button
          disabled={contactId === ''}
          busy={make.isPending ? 'Making it' : undefined}
          onClick={() => make.mutate({ ...reaches, contactId, days: Number(days) })}
        >
          Make a link
        </Button>
      </div>
      {make.error === null ? null : <ErrorNote head="Not made">{make.error.message}</ErrorNote>}
      {made === null ? null : <TellOnce address={made} />}
    </>
  );
}

/** The address, which nobody can look up again. */
function TellOnce({ address }: { address: string }) {
  const [said, setSaid] = useState('Copy');
  return (
    <div className={styles.once} role="status">
      <label>
        <span>Copy it now: it is shown this once. Whoever has it can answer for them.</span>
        <input readOnly value={address} onFocus={(event) => event.currentTarget.select()} />
      </label>
      <Button
        onClick={() =>
          // Only a page over HTTPS or on this machine may write to the clipboard; elsewhere a person copies by hand.
          navigator.clipboard?.writeText(address).then(
            () => setSaid('Copied'),
            () => setSaid('Select it and copy'),
          ) ?? setSaid('Select it and copy')
        }
      >
        {said}
      </Button>
    </div>
  );
}

function MadeLink({ link, timeZone }: { link: OwnerLinkData; timeZone: string }) {
  const revoke = useDoing(
    async (linkId: string) => (await request(RevokeOwnerLinkDocument, { linkId })).revokeOwnerLink,
  );
  const day = (at: string) => dayText(at, timeZone);
  const over = link.revokedAt !== null || new Date(link.expiresAt) <= new Date();
  return (
    <li>
      <span>
        {link.contactName}, made {day(link.createdAt)},{' '}
        {link.revokedAt !== null
          ? `taken back ${day(link.revokedAt)}`
          : `${over ? 'ran out' : 'opens until'} ${day(link.expiresAt)}`}
      </span>
      {over ? null : (
        <Button
          kind="plain"
          aria-label={`Take back the link of ${link.contactName}, made ${day(link.createdAt)}`}
          busy={revoke.isPending ? 'Taking it back' : undefined}
          onClick={() => revoke.mutate(link.id)}
        >
          Take it back
        </Button>
      )}
      {revoke.error === null ? null : (
        <ErrorNote head="Not taken back">{revoke.error.message}</ErrorNote>
      )}
    </li>
  );
}
