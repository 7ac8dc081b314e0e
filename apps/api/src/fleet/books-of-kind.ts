import type { AircraftKind, RecordBookKind } from '@fairlead/database';

interface Book {
  kind: RecordBookKind;
  title: string;
}

const airframe: Book = { kind: 'airframe', title: 'Airframe' };
const engine: Book = { kind: 'engine', title: 'Engine' };
const rotorcraft = [airframe, engine, { kind: 'rotor', title: 'Rotor' }] as const;

/** The record books that go with an aircraft of a kind: one for each engine and each propeller (14 CFR 91.417(a)). */
export const booksOfKind: Record<AircraftKind, readonly Book[]> = {
  helicopter_two_seat: rotorcraft,
  helicopter_four_seat: rotorcraft,
  airplane_single: [airframe, engine, { kind: 'propeller', title: 'Propeller' }],
  airplane_twin: [
    airframe,
    { kind: 'engine', title: 'Left engine' },
    { kind: 'engine', title: 'Right engine' },
    { kind: 'propeller', title: 'Left propeller' },
    { kind: 'propeller', title: 'Right propeller' },
  ],
};
