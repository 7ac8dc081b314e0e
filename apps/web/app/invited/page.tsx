import type { Metadata } from 'next';
import { Sheet } from '../../components/Sheet.tsx';
import { InvitedForm } from '../../features/people/invited-form.tsx';

export const metadata: Metadata = { title: 'Your invitation' };

export default function InvitedPage() {
  return (
    <Sheet
      title="Your invitation"
      titleBlock={{
        what: 'Invitation',
        cells: [
          { label: 'For', value: 'One person of the shop', span: 'half' },
          { label: 'Opens', value: 'Once', span: 'half' },
        ],
      }}
    >
      <InvitedForm />
    </Sheet>
  );
}
