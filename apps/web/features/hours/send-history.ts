import { RequestProblem } from '../../graphql/request.ts';

interface Answered {
  id?: string;
  error?: { code: string; message: string };
}

/**
 * Lays a history file on the shop's desk.
 *
 * @throws RequestProblem; of kind `refused` with the server's sentence when it said no
 */
export async function sendHistory(file: File): Promise<void> {
  const response = await fetch(`/history/uploads?name=${encodeURIComponent(file.name)}`, {
    method: 'POST',
    credentials: 'same-origin',
    headers: { 'x-fairlead': '1', 'content-type': 'application/octet-stream' },
    body: file,
  }).catch((): never => {
    throw new RequestProblem(
      'away',
      'NETWORK',
      `${file.name} did not arrive: the shop’s server cannot be reached, or the file was moved meanwhile.`,
    );
  });
  const answer = (await response.json().catch(() => ({}))) as Answered;
  if (response.ok && answer.id !== undefined) return;
  const code = answer.error?.code ?? `HTTP_${response.status}`;
  const sentence = answer.error?.message ?? `${file.name} was not taken.`;
  if (response.status === 401) throw new RequestProblem('signIn', code, sentence);
  throw new RequestProblem(response.status >= 500 ? 'away' : 'refused', code, sentence);
}
