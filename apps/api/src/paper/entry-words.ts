export const certificateWords = {
  mechanic_airframe: 'Mechanic, airframe rating',
  mechanic_powerplant: 'Mechanic, powerplant rating',
  inspection_authorization: 'Inspection authorization',
  repairman: 'Repairman',
  repair_station_inspector: 'Inspector of the repair station',
  private_pilot: 'Private pilot',
};

export const bookWords = {
  airframe: 'Airframe record',
  engine: 'Engine record',
  propeller: 'Propeller record',
  rotor: 'Rotor record',
};

/** The book as its cover says, where that says more than its kind. */
export function nameOfBook({
  kind,
  title,
}: {
  kind: keyof typeof bookWords;
  title: string;
}): string {
  const words = bookWords[kind];
  return title.toLowerCase() === kind ? words : `${words}, ${title}`;
}
