import type { Metadata } from 'next';
import { RecordsSheet } from '../../features/records/records-sheet.tsx';

export const metadata: Metadata = { title: 'Records' };

export default function RecordsPage() {
  return <RecordsSheet />;
}
