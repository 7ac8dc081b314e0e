/** The keys of the floor, for the list of keys that every sheet can show. */
export const floorKeys: readonly { keys: string; does: string }[] = [
  { keys: 'Tab', does: 'goes from aircraft to aircraft on the drawing' },
  { keys: 'Enter', does: 'takes the aircraft, and puts it down where it is held' },
  { keys: '← → ↑ ↓', does: 'holds it over the next stand that way, or the door' },
  { keys: 'Esc', does: 'puts it back: nothing has happened' },
];
