import { type DragEvent, useState } from 'react';
import { More } from '../../components/More.tsx';
import styles from './import.module.css';

const columns = [
  ['completed_on', 'the day, 2026-03-09; needed'],
  ['task', 'its short name; needed'],
  ['hours', 'hands-on hours of all people, 2.5; needed'],
  ['jasc', 'four digits'],
  ['standard_hours', 'its standard time'],
  ['model', 'maker and model'],
  ['registration', 'which aircraft'],
  ['mechanic', 'a name, or names with shares: A:0.6;B:0.4'],
  ['censored', '1 where it was handed over unfinished'],
  ['clearance_mm', 'room for hand and tool'],
  ['sight', 'direct, mirror or feel'],
  ['posture', 'upright, bent or lying'],
  ['reach', 'forearm or arm'],
  ['swing_deg', 'free swing of the tool'],
  ['held', '1 where something is held against you'],
  ['locked_fasteners', 'how many'],
] as const;

/** A place to drop a history file or to choose one. What it is, is looked at by the server. */
export function ChooseFile({
  busy,
  onFile,
}: {
  busy: string | undefined;
  onFile: (file: File) => void;
}) {
  const [over, setOver] = useState(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    const [file] = event.dataTransfer.files;
    if (file && busy === undefined) onFile(file);
  };
  return (
    <div className={styles.choose}>
      {/* Dropping is a shortcut for a mouse; the input inside does the same by keyboard. */}
      <fieldset
        className={styles.drop}
        data-over={over ? '' : undefined}
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={drop}
      >
        <legend className="spoken">History file</legend>
        {busy === undefined ? (
          <>
            <label className={styles.file}>
              Choose a history file
              <input
                type="file"
                accept=".csv,text/csv,text/plain"
                onChange={(event) => {
                  const [file] = event.currentTarget.files ?? [];
                  if (file) onFile(file);
                  event.currentTarget.value = '';
                }}
              />
            </label>
            <p>or drop it here. It is read through first; nothing is imported before you say so.</p>
          </>
        ) : (
          <p role="status">{busy}</p>
        )}
      </fieldset>
      <More words="What the file has to hold">
        <p className={styles.wide}>
          CSV in UTF-8, commas between the columns, a header row with these sixteen names in any
          order. Blank means not recorded.
        </p>
        <dl className={styles.columns}>
          {columns.map(([name, words]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
      </More>
    </div>
  );
}
