import { OwnerFrame } from '../../../features/owner/owner-frame.tsx';

export default function OpensNothing() {
  return (
    <OwnerFrame shop="A private page" title="This link opens nothing" notes={[]} titleBlock={null}>
      <p>It was mistyped, has run out or was taken back. Ask the shop for a new one.</p>
    </OwnerFrame>
  );
}
