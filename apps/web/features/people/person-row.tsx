'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { calendarDateText, dayAndTimeText } from '../../lib/figures/dates.ts';
import { BadgePart } from './badge-part.tsx';
import { CertificatesPart } from './certificates-part.tsx';
import { ChangePersonForm } from './change-person-form.tsx';
import type { Invitation } from './invitation-shown.tsx';
import styles from './people.module.css';
import { certificateWords, changeText, rolesText } from './people-words.ts';
import type { PersonOnSheet, ShopSheet } from './shop-documents.ts';
import { WayInPart } from './way-in-part.tsx';

/** Somebody in one line: initials, name, roles, what they hold; opened, all that can be changed of them. */
export function PersonRow({
  each,
  sheet,
  onInvited,
}: {
  each: PersonOnSheet;
  sheet: ShopSheet;
  onInvited: (invitation: Invitation) => void;
}) {
  const [open, setOpen] = useState(false);
  const { person, certificates, signIn, lastChange, clockRuns } = each;
  const { timeZone } = sheet.shop;
  const good = certificates.filter(
    ({ certificate: { validUntil } }) => validUntil === null || validUntil >= sheet.today,
  );
  return (
    <li className={styles.person}>
      <div className={styles.personLine}>
        <span className={styles.initials} aria-hidden="true">
          {person.initials}
        </span>
        <div>
          <h3>{person.name}</h3>
          <p>
            {rolesText(person)}
            {clockRuns ? ' · clock runs' : ''}
          </p>
        </div>
        <ul className={styles.held} aria-label="Holds">
          {good.length === 0 ? <li className={styles.second}>no certificate</li> : null}
          {good.map(({ certificate: { id, kind, number, validUntil } }) => (
            <li key={id}>
              {certificateWords[kind]} <span className={styles.number}>{number}</span>
              {validUntil === null ? '' : `, to ${calendarDateText(validUntil)}`}
            </li>
          ))}
        </ul>
        <p className={styles.second}>
          {!person.active
            ? 'left the shop'
            : signIn === null
              ? 'has no way in yet'
              : signIn.invitedUntil === null
                ? signIn.email
                : `invited as ${signIn.email}, until ${dayAndTimeText(signIn.invitedUntil, timeZone)}`}
        </p>
        <Button
          kind="plain"
          aria-expanded={open}
          aria-label={`${open ? 'Close' : 'Change'} ${person.name}`}
          onClick={() => setOpen(!open)}
        >
          {open ? 'Close' : 'Change'}
        </Button>
      </div>
      {open ? (
        <div className={styles.opened}>
          {person.active ? (
            <>
              <ChangePersonForm person={person} />
              <CertificatesPart each={each} today={sheet.today} />
            </>
          ) : null}
          {person.active && signIn !== null && signIn.invitedUntil === null ? (
            <BadgePart person={person} />
          ) : null}
          <WayInPart each={each} onInvited={onInvited} />
          <p className={styles.changed}>Last changed: {changeText(lastChange, timeZone)}</p>
        </div>
      ) : null}
    </li>
  );
}
