import type { Metadata } from 'next';
import { NewAircraft } from '../../../../features/fleet/new-aircraft.tsx';

export const metadata: Metadata = { title: 'New aircraft' };

export default function NewAircraftPage() {
  return <NewAircraft />;
}
