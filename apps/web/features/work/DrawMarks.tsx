'use client';

import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { Choices } from '../../components/Choice.tsx';
import { ErrorNote } from '../../components/ErrorNote.tsx';
import { Field } from '../../components/Field.tsx';
import { type Mark, PhotoMarks } from '../../components/PhotoMarks.tsx';
import styles from './mark-photo.module.css';

/** As many as a photo takes. */
export const MOST_MARKS = 12;
const STEP = 20;
const tools = [
  { value: 'arrow', words: 'Arrow', note: 'From its tail to its point' },
  { value: 'ring', words: 'Ring', note: 'From its middle outwards' },
  { value: 'note', words: 'Words', note: 'Where they begin' },
] as const;
type Tool = (typeof tools)[number]['value'];

const inside = (place: number) => Math.max(0, Math.min(1000, Math.round(place)));

/** A picture to draw on, and its pixels. */
export interface Drawable {
  id: string;
  /** What it shows, for those who cannot see it. */
  words: string;
  width: number;
  height: number;
  /** Where it is to be had, the largest first: with no network the largest that this device has loaded before has to do. */
  sources: readonly string[];
}

/** Marks drawn over a picture, by one stroke each, or by the arrow keys and Enter. */
export function DrawMarks({
  picture: { id, words: shows, width, height, sources },
  name,
  begin: begun,
  error,
  onKeep,
  onClose,
}: {
  picture: Drawable;
  name: string;
  /** What is on it already. */
  begin: readonly Mark[];
  error: string | null;
  onKeep: (marks: Mark[]) => void;
  onClose: () => void;
}) {
  const [marks, setMarks] = useState(begun);
  const [missing, setMissing] = useState(0);
  const [tool, setTool] = useState<Tool>('arrow');
  const [words, setWords] = useState('');
  // Where a stroke began, and where the keyboard's cross stands.
  const [from, setFrom] = useState<{ x: number; y: number } | null>(null);
  const [cross, setCross] = useState({ x: 500, y: 500 });
  const area = useRef<HTMLDivElement>(null);
  const source = sources[missing];

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
    if (marks.length < MOST_MARKS && (tool !== 'note' || words.trim() !== ''))
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
        name={`tool-${id}`}
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
            alt={shows}
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
          ? `${marks.length} of ${MOST_MARKS} marks.`
          : 'Begun: now where it ends. Escape takes it back.'}
      </p>
      {error === null ? null : <ErrorNote head="Not kept">{error}</ErrorNote>}
      <div className={styles.ways}>
        <Button
          size="bench"
          kind="primary"
          disabled={source === undefined}
          onClick={() => onKeep([...marks])}
        >
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
