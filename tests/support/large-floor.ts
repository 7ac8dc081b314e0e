/** What a page that asks for the floor is answered, as far as drawing it needs. */
interface FloorAnswer {
  data: {
    floor: {
      __typename: string;
      hangar: Record<string, unknown>;
      stands: DrawnStand[];
      coming: unknown[];
      conflicts: unknown[];
    };
  };
}
interface DrawnStand {
  id: string;
  name: string;
  xMm: number;
  yMm: number;
  widthMm: number;
  depthMm: number;
  headingDeg: number;
  stay: DrawnStay | null;
}
interface DrawnStay {
  id: string;
  stand: { id: string; name: string };
  aircraft: {
    id: string;
    registration: string;
    model: Record<string, unknown>;
  };
}

/** A floor of so many stands in rows, with an aircraft on all but the last, made of what the real one answers. */
export function largeFloor(answer: FloorAnswer, count: number): FloorAnswer {
  const { floor } = answer.data;
  const stays = floor.stands.flatMap(({ stay }) => (stay ? [stay] : []));
  const perRow = Math.ceil(Math.sqrt(count * 1.6));
  const place = { widthMm: 14_000, depthMm: 14_000 };
  const stands = Array.from({ length: count + 1 }, (_, index): DrawnStand => {
    const id = `stand-${index}`;
    const name = `Stand ${index + 1}`;
    const stay = stays[index % stays.length];
    return {
      id,
      name,
      xMm: 500 + (index % perRow) * 14_500,
      yMm: 500 + Math.floor(index / perRow) * 14_500,
      ...place,
      headingDeg: 180,
      stay:
        stay === undefined || index === count
          ? null
          : {
              ...stay,
              id: `stay-${index}`,
              stand: { id, name },
              aircraft: {
                ...stay.aircraft,
                id: `aircraft-${index}`,
                registration: `QQ-${300 + index}`,
              },
            },
    };
  });
  const rows = Math.ceil((count + 1) / perRow);
  const hangar = {
    ...floor.hangar,
    widthMm: perRow * 14_500 + 500,
    depthMm: rows * 14_500 + 500,
    doorFromMm: 10_000,
    doorWidthMm: 30_000,
  };
  return { data: { floor: { ...floor, hangar, stands, coming: [], conflicts: [] } } };
}

/** The same floor with another size of one aircraft's model. */
export function withSize(
  answer: FloorAnswer,
  registration: string,
  parked: { parkedLengthMm: number; parkedWidthMm: number },
): FloorAnswer {
  const size = { ...parked, lengthMm: parked.parkedLengthMm, spanMm: parked.parkedWidthMm };
  const stands = answer.data.floor.stands.map((stand) =>
    stand.stay?.aircraft.registration === registration
      ? {
          ...stand,
          stay: {
            ...stand.stay,
            aircraft: {
              ...stand.stay.aircraft,
              model: { ...stand.stay.aircraft.model, ...size },
            },
          },
        }
      : stand,
  );
  return { data: { floor: { ...answer.data.floor, stands } } };
}
