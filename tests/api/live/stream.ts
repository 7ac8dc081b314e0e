/** A stream of server-sent events, as a browser reads it. */
export interface Stream {
  status: number;
  headers: Headers;
  /** What a refused stream answered. */
  refusal: string;
  /** The next event, or null where none came within `ms`, or the stream ended. */
  next(ms?: number): Promise<{ event: string; data: string } | null>;
  /** Whether the server ended it within `ms`. */
  ends(ms?: number): Promise<boolean>;
  leave(): void;
}

const after = <T>(ms: number, value: T) =>
  new Promise<T>((resolve) => {
    setTimeout(resolve, ms, value);
  });

export async function openStream(url: string, cookie = ''): Promise<Stream> {
  const away = new AbortController();
  const answer = await fetch(url, {
    headers: { accept: 'text/event-stream', ...(cookie && { cookie }) },
    signal: away.signal,
  });
  const events: { event: string; data: string }[] = [];
  let over = false;
  let wake = () => {};
  const read = async () => {
    let text = '';
    const decoder = new TextDecoder();
    for await (const piece of answer.body ?? []) {
      text += decoder.decode(piece, { stream: true });
      const parts = text.split('\n\n');
      text = parts.pop() ?? '';
      for (const part of parts) {
        const event = /^event: ?(.*)$/m.exec(part)?.[1];
        if (event !== undefined)
          events.push({ event, data: /^data: ?(.*)$/m.exec(part)?.[1] ?? '' });
      }
      wake();
    }
  };
  const refusal = answer.ok ? '' : await answer.text();
  if (answer.ok) {
    void read()
      .catch(() => undefined)
      .then(() => {
        over = true;
        wake();
      });
  }
  const until = async (ms: number, there: () => boolean) => {
    const late = after(ms, 'late' as const);
    while (!there()) {
      const woken = new Promise<'woken'>((resolve) => {
        wake = () => resolve('woken');
      });
      if ((await Promise.race([woken, late])) === 'late') return;
    }
  };
  return {
    status: answer.status,
    headers: answer.headers,
    refusal,
    async next(ms = 5000) {
      await until(ms, () => events.length > 0 || over);
      return events.shift() ?? null;
    },
    async ends(ms = 5000) {
      await until(ms, () => over);
      return over;
    },
    leave: () => away.abort(),
  };
}
