'use client';

import { type AircraftKind, aircraftSize, Silhouette } from '../../components/Silhouette.tsx';
import { type Place, wordsOfZone } from './places.ts';

interface Model {
  maker: string;
  name: string;
  kind: AircraftKind;
  lengthMm: number;
  spanMm: number;
  heightMm: number;
  parkedLengthMm: number;
  parkedWidthMm: number;
}

/** The aircraft from the side, with a balloon at each place where something is done. */
export function QuoteDrawing({
  registration,
  model,
  places,
  hrefOf,
}: {
  registration: string;
  model: Model;
  places: readonly Place<{ key: string; title: string }>[];
  /** The row that a place leads to. */
  hrefOf: (place: Place<{ key: string; title: string }>) => string;
}) {
  const say = (count: number) => `${count} ${count === 1 ? 'item' : 'items'}`;
  return (
    <Silhouette
      kind={model.kind}
      size={aircraftSize(model)}
      balloons={places.map((place) => ({
        number: place.number,
        zone: place.zone,
        href: hrefOf(place),
        label: `${wordsOfZone(place.zone)}, ${say(place.items.length)}`,
      }))}
      label={`Side view of ${registration}, a ${model.maker} ${model.name}. ${places
        .map(({ number, zone, items }) => `${number}: ${wordsOfZone(zone)}, ${say(items.length)}`)
        .join('; ')}`}
      caption={`${registration} · ${model.maker} ${model.name}`}
    />
  );
}
