'use client';

import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { type Mark, PhotoMarks } from '../../components/PhotoMarks.tsx';
import type { ShownPhoto } from '../../components/Photos.tsx';
import { useFact } from '../safety/use-fact.ts';
import styles from './mark-photo.module.css';
import { outbox } from './outbox.ts';
import type { Pending } from './pending.ts';
import { useOutbox } from './use-bench.ts';

const MOST = 12;
const STEP = 20;
const tools = [
  { value: 'arrow', words: 'Arrow', note: 'From its tail to its point' },
  { value: 'ring', words: 'Ring', note: 'From its middle outwards' },
  { value: 'note', words: 'Words', note: 'Where they begin' },
] as const;
type Tool = (typeof tools)[number]['value'];

type Marked = Extract<Pending, { kind: 'care'; does: 'mark' }>;
const isRefusedOf =
  (photoId: string) =>
  (entry: Pending): entry is Marked =>
    entry.kind === 'care' &&
    entry.does === 'mark' &&
    entry.refused !== undefined &&
    entry.input.photoId === photoId;

const withRefused = (there: readonly Mark[], refused: Marked | undefined): readonly Mark[] => {
  const places = new Set(there.map(placesOf));
  const mine = (refused?.input.marks ?? []).filter((mark) => !places.has(placesOf(mark)));
  return [...there, ...mine].slice(0, MOST);
};
const placesOf = ({ kind, x, y, toX, toY, words }: Mark) => [kind, x, y, toX, toY, words].join();

const inside = (place: number) => Math.max(0, Math.min(1000, Math.round(place)));

/** Arrows, rings and words over a photo: by one stroke, or by the arrow keys and Enter. The photo stays as it was taken. */
export function MarkPhoto({
  photo,
  name,
  of,
}: {
  photo: ShownPhoto;
  name: string;
  /** What it is a photograph of. */
  of: string;
}) {
  const [open, setOpen] = useState(false);
  return open ? (
    <Marking photo={photo} name={name} of={of} onClose={() => setOpen(false)} />
  ) : (
    <Button size="bench" onClick={() => setOpen(true)}>
      Mark {name}
    </Button>
  );
}

function Marking({
  photo,
  name,
  of,
  onClose,
}: {
  photo: ShownPhoto;
  name: string;
  of: string;
  onClose: () => void;
}) {
  const { width, height } = photo;
  const refused = useOutbox().pending.find(isRefusedOf(photo.id));
  // What was drawn here and not taken is there to go on from, beside what was drawn since.
  const [marks, setMarks] = useState(() => withRefused(photo.marks ?? [], refused));
  const [missing, setMissing] = useState(0);
  const [tool, setTool] = useState<Tool>('arrow');
  const [words, setWords] = useState('');
  // Where a stroke began, and where the keyboard's cross stands.
  const [from, setFrom] = useState<{ x: number; y: number } | null>(null);
  const [cross, setCross] = useState({ x: 500, y: 500 });
  const area = useRef<HTMLDivElement>(null);
  const keeping = useFact('mark', () => {
    if (refused !== undefined) outbox.discard(refused);
    onClose();
  });
  const keep = () =>
    keeping.mutate({
      input: { photoId: photo.id, marks: [...marks] },
      words: `Marks on ${name}: ${of}`,
    });
  // With no network the largest that this device has loaded before has to do.
  const source = [photo.large, photo.middle, photo.thumb][missing];

  const placeOf = (event: PointerEvent) => {
    const box = area.current?.getBoundingClientRect();
    if (!box) return cross;
    return {
      x: inside((1000 * (event.clientX - box.left)) / box.width),
      y: inside((1000 * (event.clientY - box.top)) / box.height),
    };
  };
  /** A stroke from its begin to its end; an arrow points where it ends. */
  const stroke = (begin: { x: number; y: number }, end: { x: number; y: number }): Mark =>
    tool === 'arrow'
      ? { kind: tool, ...end, toX: begin.x, toY: begin.y, words: '' }
      : tool === 'ring'
        ? { kind: tool, ...begin, toX: end.x, toY: end.y, words: '' }
        : { kind: tool, ...end, toX: end.x, toY: end.y, words };
  const add = (end: { x: number; y: number }) => {
    if (marks.length < MOST && (tool !== 'note' || words.trim() !== ''))
      setMarks([...marks, stroke(from ?? end, end)]);
    setFrom(null);
  };
  const byKey = (event: KeyboardEvent) => {
    const step = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[
      event.key
    ];
    if (step)
      setCross({ x: inside(cross.x + STEP * step[0]!), y: inside(cross.y + STEP * step[1]!) });
    else if (event.key === 'Enter' || event.key === ' ') {
      if (from === null && tool !== 'note') setFrom(cross);
      else add(cross);
    } else if (event.key === 'Escape') setFrom(null);
    else return;
    event.preventDefault();
  };
  const shown = from === null ? marks : [...marks, stroke(from, cross)];
  return (
    <section className={styles.marking} aria-label={`Marks on ${name}`}>
      <Choices
        legend="What to put on it"
        name={`tool-${photo.id}`}
        options={tools}
        value={tool}
        onChoose={(value) => setTool(value as Tool)}
      />
      {tool === 'note' ? (
        <Field
          label="The words"
          maxLength={60}
          value={words}
          onChange={(event) => setWords(event.currentTarget.value)}
        />
      ) : null}
      <div
        ref={area}
        className={styles.area}
        role="application"
        aria-label={`Place on ${name}. Arrow keys move the cross, Enter sets a mark: first where it begins, then where it ends.`}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: it is drawn on, by pointer and by keys
        tabIndex={0}
        onKeyDown={byKey}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          const place = placeOf(event);
          setCross(place);
          setFrom(place);
        }}
        onPointerMove={(event) => {
          if (from !== null && event.buttons > 0) setCross(placeOf(event));
        }}
        onPointerUp={(event) => {
          if (from !== null) add(placeOf(event));
        }}
        onPointerCancel={() => setFrom(null)}
      >
        {source === undefined ? null : (
          <img
            src={source}
            width={width}
            height={height}
            alt={photo.words}
            draggable={false}
            onError={() => setMissing(missing + 1)}
          />
        )}
        <PhotoMarks marks={shown} width={width} height={height} />
        <span
          className={styles.cross}
          style={{ insetInlineStart: `${cross.x / 10}%`, insetBlockStart: `${cross.y / 10}%` }}
        />
      </div>
      {source === undefined ? (
        <ErrorNote>This photo is not on this device: mark it when there is a signal.</ErrorNote>
      ) : null}
      <p role="status">
        {from === null
          ? `${marks.length} of ${MOST} marks.`
          : 'Begun: now where it ends. Escape takes it back.'}
      </p>
      {keeping.error === null ? null : (
        <ErrorNote head="Not kept">{keeping.error.message}</ErrorNote>
      )}
      <div className={styles.ways}>
        <Button size="bench" kind="primary" disabled={source === undefined} onClick={keep}>
          Keep the marks
        </Button>
        <Button
          size="bench"
          disabled={marks.length === 0}
          onClick={() => setMarks(marks.slice(0, -1))}
        >
          Take the last off
        </Button>
        <Button size="bench" onClick={onClose}>
          Leave it as it was
        </Button>
      </div>
    </section>
  );
}
