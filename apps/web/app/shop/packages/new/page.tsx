import type { Metadata } from 'next';
import { NewPackageSheet } from '../../../../features/catalogue/package-sheet.tsx';

export const metadata: Metadata = { title: 'New package' };

export default function NewPackagePage() {
  return <NewPackageSheet />;
}
