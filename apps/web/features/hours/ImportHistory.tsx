'use client';

import { Button } from '../../components/Button.tsx';
import { Loading } from '../../components/Empty.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { ChooseFile } from './ChooseFile.tsx';
import type { OnDesk } from './hours-document.ts';
import styles from './import.module.css';
import { figure, jobs, readSentence } from './import-words.ts';
import { RefusedRows } from './RefusedRows.tsx';
import { TakingIn } from './TakingIn.tsx';
import { useDesk } from './use-desk.ts';

/** A history file from the browser: chosen, read through, taken in whole or put away. */
export function ImportHistory({ mayImport }: { mayImport: boolean }) {
  const { desk, upload, send, takeIn, putAway } = useDesk();
  const problem = send.error ?? takeIn.error ?? putAway.error ?? (upload ? null : desk.error);
  const over = putAway.data;
  const free = upload === null || upload.state === 'taken_in' || upload.state === 'refused';
  if (!desk.data)
    return problem ? <ErrorNote head="The desk cannot be seen">{problem.message}</ErrorNote> : null;
  return (
    <div className={styles.import}>
      {problem ? <ErrorNote head="Not done">{problem.message}</ErrorNote> : null}
      {upload === null && over ? (
        <p role="status">
          {over.takenIn
            ? `Put away. Its ${jobs(over.added)} stay in the history.`
            : 'Put away. Nothing of it was imported.'}
        </p>
      ) : null}
      {upload ? (
        <section className={styles.desk} aria-label={`History file ${upload.fileName}`}>
          <p className={styles.name}>
            {upload.fileName}
            <span>
              {figure(Math.ceil(upload.size / 1024))} kB, from {upload.uploadedBy}
            </span>
          </p>
          <Stands upload={upload} />
          {mayImport ? (
            <Actions
              upload={upload}
              busy={takeIn.isPending || putAway.isPending}
              onTakeIn={() => takeIn.mutate(upload.id)}
              onPutAway={() => putAway.mutate(upload.id)}
            />
          ) : null}
        </section>
      ) : null}
      {mayImport && free ? (
        <ChooseFile
          busy={send.isPending ? `Sending ${send.variables.name}` : undefined}
          onFile={(file) => {
            putAway.reset();
            takeIn.reset();
            send.mutate(file);
          }}
        />
      ) : null}
      {!mayImport && upload === null ? (
        <p>The manager imports past jobs, here or from the command line.</p>
      ) : null}
    </div>
  );
}

/** Where the file stands. */
function Stands({ upload }: { upload: OnDesk }) {
  switch (upload.state) {
    case 'being_read':
      return <Loading>Reading it through</Loading>;
    case 'being_taken_in':
      return (
        <>
          <TakingIn upload={upload} />
          {upload.standsStill ? (
            <p role="status">
              Nothing has moved for a minute: it may have been interrupted. Nothing is half
              imported.
            </p>
          ) : null}
        </>
      );
    case 'refused':
      return (
        <>
          <ErrorNote head="Nothing imported">{upload.problem}</ErrorNote>
          <RefusedRows upload={upload} />
        </>
      );
    case 'taken_in':
      return (
        <>
          <p className={styles.far} role="status">
            {upload.addedRows === 0
              ? 'Every good row was there already: nothing was added.'
              : `${jobs(upload.addedRows)} added to the shop’s history${upload.alreadyRows > 0 ? `, ${figure(upload.alreadyRows)} were there already` : ''}.`}
          </p>
          <RefusedRows upload={upload} />
        </>
      );
    default:
      return (
        <>
          <p className={styles.far} role="status">
            {readSentence(upload)}
          </p>
          <RefusedRows upload={upload} />
        </>
      );
  }
}

function Actions({
  upload,
  busy,
  onTakeIn,
  onPutAway,
}: {
  upload: OnDesk;
  busy: boolean;
  onTakeIn: () => void;
  onPutAway: () => void;
}) {
  const fresh = upload.goodRows - upload.alreadyRows;
  const away = { read: 'Import nothing', being_taken_in: 'Stop, import nothing' } as Record<
    string,
    string
  >;
  return (
    <div className={styles.actions}>
      {upload.state === 'read' && fresh > 0 ? (
        <Button kind="primary" disabled={busy} onClick={onTakeIn}>
          {fresh === 1 ? 'Import the good row' : `Import the ${figure(fresh)} good rows`}
        </Button>
      ) : null}
      {upload.state === 'being_taken_in' && upload.standsStill ? (
        <Button kind="primary" disabled={busy} onClick={onTakeIn}>
          Start again
        </Button>
      ) : null}
      <Button disabled={busy} onClick={onPutAway}>
        {away[upload.state] ?? 'Put it away'}
      </Button>
    </div>
  );
}
