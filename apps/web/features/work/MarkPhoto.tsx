'use client';

import { useState } from 'react';
import { Button } from '../../components/Button.tsx';
import type { Mark } from '../../components/PhotoMarks.tsx';
import type { ShownPhoto } from '../../components/Photos.tsx';
import { useFact } from '../safety/use-fact.ts';
import { DrawMarks, MOST_MARKS } from './DrawMarks.tsx';
import { outbox } from './outbox.ts';
import type { Pending } from './pending.ts';
import { useOutbox } from './use-bench.ts';

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
  return [...there, ...mine].slice(0, MOST_MARKS);
};
const placesOf = ({ kind, x, y, toX, toY, words }: Mark) => [kind, x, y, toX, toY, words].join();

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
  const { id, words, width, height, large, middle, thumb } = photo;
  const refused = useOutbox().pending.find(isRefusedOf(id));
  const keeping = useFact('mark', () => {
    if (refused !== undefined) outbox.discard(refused);
    onClose();
  });
  return (
    <DrawMarks
      picture={{ id, words, width, height, sources: [large, middle, thumb] }}
      name={name}
      // What was drawn here and not taken is there to go on from, beside what was drawn since.
      begin={withRefused(photo.marks ?? [], refused)}
      error={keeping.error?.message ?? null}
      onKeep={(marks) =>
        keeping.mutate({ input: { photoId: id, marks }, words: `Marks on ${name}: ${of}` })
      }
      onClose={onClose}
    />
  );
}
