import type { ReactNode } from 'react';
import { ClockSlot } from './ClockSlot.tsx';
import { KeysList } from './KeysList.tsx';
import { SchemeSwitch } from './SchemeSwitch.tsx';
import styles from './Sheet.module.css';
import { SheetLink } from './SheetLink.tsx';
import { SheetMark } from './SheetMark.tsx';
import { SignOut } from './SignOut.tsx';
import type { SheetKeys } from './sheet-keys.ts';
import { type Role, type SheetKey, sheetsFor } from './sheets.ts';
import { TitleBlock, type TitleBlockContent } from './TitleBlock.tsx';

/** Who is reading, as far as the frame shows it. */
export interface SheetViewer {
  name: string;
  roles: readonly Role[];
}

const standingNotes = [
  'The current manufacturer’s manual, its limitations section and the directives govern.',
  'This program does not determine airworthiness and approves nothing for return to service; a person who holds the certificate and rating does.',
  'Due dates and estimates are aids. The owner stays responsible; local rules may ask for more.',
];

/**
 * The frame of every page: a drawing sheet with its border, the words across the top that are this
 * person's, the notes and the title block at the foot.
 */
export function Sheet({
  here = null,
  viewer = null,
  title,
  titleHidden = false,
  titleBlock,
  notice,
  clock,
  notes = standingNotes,
  reading = 'desk',
  keys = [],
  children,
}: {
  /** The word of this sheet; null on sheets outside the row of words. */
  here?: SheetKey | 'shop' | null;
  /** Null before sign-in: no words are shown. */
  viewer?: SheetViewer | null;
  /** The page's only h1. */
  title: string;
  /** Where the drawing itself is the title, such as the floor; the h1 is then only spoken. */
  titleHidden?: boolean;
  titleBlock: TitleBlockContent;
  /** A line at the very top: what is not sent yet. */
  notice?: ReactNode;
  /** The running clock of whoever reads, where the sheet knows it; null where it says so itself. Left out: it is asked for. */
  clock?: ReactNode;
  notes?: readonly string[];
  /** `bench`: text from 18 px, touch from 56 px, inks at 7:1. */
  reading?: 'desk' | 'bench';
  /** The keys that do something on this sheet, listed under "?" and the word Keys. None at the bench. */
  keys?: SheetKeys;
  children: ReactNode;
}) {
  return (
    <div className={styles.trim} data-reading={reading === 'bench' ? 'bench' : undefined}>
      <a className={styles.skip} href="#sheet">
        Skip to the sheet
      </a>
      <Fields />
      <div className={styles.frame}>
        <header className={styles.head}>
          <SheetLink className={styles.mark} href="/">
            <SheetMark />
            Fairlead
          </SheetLink>
          {viewer === null ? null : (
            <>
              <nav className={styles.words} aria-label="Sheets">
                {sheetsFor(viewer.roles).map((sheet) => (
                  <SheetLink
                    key={sheet.key}
                    href={sheet.href}
                    aria-current={sheet.key === here ? 'page' : undefined}
                  >
                    {sheet.words}
                  </SheetLink>
                ))}
              </nav>
              <div className={styles.viewer}>
                <span>{viewer.name}</span>
                {viewer.roles.includes('manager') ? (
                  <SheetLink href="/shop" aria-current={here === 'shop' ? 'page' : undefined}>
                    The shop
                  </SheetLink>
                ) : null}
                {reading === 'desk' ? <KeysList keys={keys} /> : null}
                <SignOut />
              </div>
            </>
          )}
        </header>
        {clock === undefined && viewer !== null ? <ClockSlot roles={viewer.roles} /> : clock}
        {notice === undefined ? null : (
          <section className={styles.notice} aria-label="Notice" aria-live="polite">
            {notice}
          </section>
        )}
        <main className={styles.body} id="sheet" tabIndex={-1}>
          <h1 className={titleHidden ? 'spoken' : styles.title}>{title}</h1>
          {children}
        </main>
        <footer className={styles.foot}>
          <div className={styles.notes}>
            <h2>Notes</h2>
            <ol>
              {notes.map((note) => (
                <li key={note}>
                  <span>{note}</span>
                </li>
              ))}
            </ol>
            <SchemeSwitch />
          </div>
          <div className={styles.block}>
            <TitleBlock {...titleBlock} />
          </div>
        </footer>
      </div>
    </div>
  );
}

/** The fields of the border, columns in figures and rows in letters (ISO 5457). */
function Fields() {
  const columns = ['1', '2', '3', '4', '5', '6', '7', '8'];
  const rows = ['A', 'B', 'C', 'D', 'E', 'F'];
  const edges = { top: columns, bottom: columns, left: rows, right: rows };
  return Object.entries(edges).map(([edge, names]) => (
    <div key={edge} className={styles.fields} data-edge={edge} aria-hidden="true">
      {names.map((name) => (
        <span key={name}>{name}</span>
      ))}
    </div>
  ));
}
