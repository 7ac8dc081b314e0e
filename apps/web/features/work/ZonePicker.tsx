'use client';

import { useEffect, useRef } from 'react';
import { Select } from '../../components/Field.tsx';
import { aircraftSize, Silhouette, type Zone } from '../../components/Silhouette.tsx';
import { drawAircraft } from '../../components/silhouette/draw.ts';
import styles from './bench.module.css';
import type { BenchItem } from './bench-documents.ts';
import { zoneWords } from './form-words.ts';

type Model = BenchItem['order']['aircraft']['model'];

/** Where on the aircraft: touched on its side view, or chosen by name. */
export function ZonePicker({
  model,
  number,
  zone,
  onZone,
}: {
  model: Model;
  /** In the balloon. */
  number: number;
  zone: Zone | '';
  onZone: (zone: Zone | '') => void;
}) {
  const size = aircraftSize(model);
  const places = drawAircraft(model.kind, size, 'side').zones;
  const zones = Object.keys(places) as Zone[];
  const figure = useRef<HTMLDivElement>(null);
  // The drawing is a shortcut for the list beneath it, which does the same by keyboard and by ear.
  useEffect(() => {
    const drawing = figure.current;
    const touch = (event: MouseEvent) => {
      const toDrawing = drawing?.querySelector('svg')?.getScreenCTM()?.inverse();
      if (!toDrawing) return;
      const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(toDrawing);
      const distance = (each: Zone) => {
        const place = places[each];
        return place ? Math.hypot(place.x - x, place.y - y) : Number.POSITIVE_INFINITY;
      };
      const [nearest] = zones.toSorted((one, other) => distance(one) - distance(other));
      if (nearest) onZone(nearest);
    };
    drawing?.addEventListener('click', touch);
    return () => drawing?.removeEventListener('click', touch);
  });
  return (
    <div className={styles.form}>
      <div ref={figure} className={styles.zones}>
        <Silhouette
          kind={model.kind}
          size={size}
          label={zone === '' ? 'Side view, no place chosen' : `Side view, ${zoneWords[zone]}`}
          balloons={zone === '' ? [] : [{ number, zone }]}
        />
      </div>
      <Select
        label="Where"
        hint="Touch the drawing, or choose."
        options={[
          { value: '', words: 'not said' },
          ...zones.map((each) => ({ value: each, words: zoneWords[each] })),
        ]}
        value={zone}
        onChange={(event) => onZone(event.currentTarget.value as Zone | '')}
      />
    </div>
  );
}
