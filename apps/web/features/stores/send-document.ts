import { SaidNo } from '../quoting/use-answer.ts';

/** What the shop takes of one document. */
export const MOST_BYTES = 10 * 1024 * 1024;

/** Sends a document below `/certificates` as it is; throws with the shop's sentence where it was not kept. */
export async function sendDocument(to: string, document: File): Promise<void> {
  const response = await fetch(
    `/certificates/${to}?name=${encodeURIComponent(document.name.slice(-160))}`,
    {
      method: 'POST',
      credentials: 'same-origin',
      headers: { 'x-fairlead': '1', 'content-type': 'application/octet-stream' },
      body: document,
    },
  );
  if (response.ok) return;
  const said = (await response.json().catch(() => null)) as {
    error?: { message: string };
  } | null;
  throw new SaidNo(said?.error?.message ?? 'Nothing was kept: the shop did not answer.');
}
