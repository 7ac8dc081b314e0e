import type { Metadata } from 'next';
import { FloorSheet } from '../../features/hangar/floor-sheet.tsx';

export const metadata: Metadata = { title: 'Floor' };

export default function FloorPage() {
  return <FloorSheet />;
}
