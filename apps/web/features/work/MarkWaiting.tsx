'use client';

import { useEffect, useState } from 'react';
import { Button } from '../../components/Button.tsx';
import { clientId } from '../../lib/client-id.ts';
import { type Drawable, DrawMarks } from './DrawMarks.tsx';
import { outbox } from './outbox.ts';
import type { PendingPhoto } from './pending.ts';

/** Draws on a photo that this device still holds, from its own file; the marks go with it. */
export function MarkWaiting({ entry }: { entry: PendingPhoto }) {
  const { id, words, photo, marked } = entry;
  const [open, setOpen] = useState(false);
  const [gone, setGone] = useState(false);
  const picture = useFile(open ? photo : null);
  if (picture === 'unseen') return <p>This browser cannot show it: mark it once it is sent.</p>;
  if (!open || picture === null)
    return (
      <Button size="bench" onClick={() => setOpen(true)}>
        Mark it<span className="spoken">: {words}</span>
      </Button>
    );
  return (
    <DrawMarks
      picture={{ ...picture, id, words }}
      name="the photo"
      begin={marked?.marks ?? []}
      error={gone ? 'The photo is through by now: mark it where it was found.' : null}
      onKeep={(marks) =>
        void outbox.mark(id, marks, { id: clientId(), madeAt: Date.now() }).then((kept) => {
          setGone(!kept);
          setOpen(!kept);
        })
      }
      onClose={() => setOpen(false)}
    />
  );
}

/** A file as a picture with its pixels; null until it is read, `unseen` where the browser cannot. */
function useFile(
  file: Blob | null,
): Pick<Drawable, 'width' | 'height' | 'sources'> | 'unseen' | null {
  const [read, setRead] = useState<
    Pick<Drawable, 'width' | 'height' | 'sources'> | 'unseen' | null
  >(null);
  useEffect(() => {
    if (file === null) return;
    const address = URL.createObjectURL(file);
    const image = new Image();
    image.onload = () =>
      setRead({ width: image.naturalWidth, height: image.naturalHeight, sources: [address] });
    image.onerror = () => setRead('unseen');
    image.src = address;
    return () => {
      image.onload = image.onerror = null;
      setRead(null);
      URL.revokeObjectURL(address);
    };
  }, [file]);
  return read;
}
