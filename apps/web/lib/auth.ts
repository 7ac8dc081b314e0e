/** What the ways of signing in answer: what was asked for, or a sentence that says what is wrong. */
export type Said<Answer> = { answer: Answer } | { sentence: string };

const away = 'The shop’s server is not answering. Nothing was sent; try again shortly.';

/** Asks one of the routes below /auth; with a body it is a POST. */
export async function auth<Answer>(
  path: `/auth/${string}`,
  body?: Record<string, unknown>,
): Promise<Said<Answer>> {
  try {
    const response = await fetch(path, {
      credentials: 'same-origin',
      ...(body === undefined
        ? {}
        : {
            method: 'POST',
            headers: { 'content-type': 'application/json' },
            body: JSON.stringify(body),
          }),
    });
    const said = (await response.json()) as Answer & { error?: { message: string } };
    return response.ok ? { answer: said } : { sentence: said.error?.message ?? away };
  } catch {
    return { sentence: away };
  }
}
