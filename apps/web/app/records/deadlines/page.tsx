import type { Metadata } from 'next';
import { DeadlinesSheet } from '../../../features/programme/deadlines-sheet.tsx';

export const metadata: Metadata = { title: 'Deadlines' };

export default function DeadlinesPage() {
  return <DeadlinesSheet />;
}
