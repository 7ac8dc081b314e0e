import type { Metadata } from 'next';
import { AircraftRecords } from '../../../../features/programme/aircraft-records.tsx';

export const metadata: Metadata = { title: 'Records of an aircraft' };

export default async function AircraftRecordsPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  return <AircraftRecords id={id} />;
}
