import type { Metadata } from 'next';
import { PackageSheet } from '../../../../features/catalogue/package-sheet.tsx';

export const metadata: Metadata = { title: 'A package' };

export default async function PackagePage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  return <PackageSheet id={decodeURIComponent(id)} />;
}
