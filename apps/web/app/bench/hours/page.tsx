import type { Metadata } from 'next';
import { HoursSheet } from '../../../features/work/HoursSheet.tsx';

export const metadata: Metadata = { title: 'Your hours' };

export default function HoursPage() {
  return <HoursSheet />;
}
