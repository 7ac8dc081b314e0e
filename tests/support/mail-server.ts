import type { AddressInfo } from 'node:net';
import { type ParsedMail, simpleParser } from 'mailparser';
import { SMTPServer, type SMTPServerOptions } from 'smtp-server';

/** A mail as it came over the wire. */
export interface ArrivedMail {
  from: string;
  to: string[];
  raw: string;
  /** Whether it came by TLS. */
  secure: boolean;
  parsed: ParsedMail;
}

export interface MailServer {
  port: number;
  arrived: ArrivedMail[];
  /** Says no to a recipient; null: takes everybody. */
  refuse: ((address: string) => { code: number; words: string } | null) | null;
  /** What it waits for before it says that it took a mail. */
  beforeAnswer: (mail: ArrivedMail) => Promise<void>;
  close(): Promise<void>;
}

/** A real SMTP server on this machine (npm smtp-server), in the clear unless said otherwise. */
export async function startMailServer({
  port = 0,
  ...options
}: SMTPServerOptions & { port?: number } = {}): Promise<MailServer> {
  const arrived: ArrivedMail[] = [];
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    disableReverseLookup: true,
    closeTimeout: 200,
    logger: false,
    onRcptTo({ address }, _session, done) {
      const no = mail.refuse?.(address) ?? null;
      done(no && Object.assign(new Error(no.words), { responseCode: no.code }));
    },
    onData(stream, session, done) {
      const pieces: Buffer[] = [];
      stream.on('data', (piece: Buffer) => pieces.push(piece));
      stream.on('end', () => {
        void (async () => {
          const raw = Buffer.concat(pieces);
          const { mailFrom, rcptTo } = session.envelope;
          const one = {
            from: mailFrom ? mailFrom.address : '',
            to: rcptTo.map(({ address }) => address),
            raw: raw.toString('utf8'),
            secure: session.secure,
            parsed: await simpleParser(raw),
          };
          arrived.push(one);
          await mail.beforeAnswer(one);
          done();
        })();
      });
    },
    ...options,
  });
  // A client that goes away in the middle is what some tests want.
  server.on('error', () => {});
  await new Promise<void>((ready) => server.listen(port, '127.0.0.1', ready));
  const mail: MailServer = {
    port: (server.server.address() as AddressInfo).port,
    arrived,
    refuse: null,
    beforeAnswer: async () => {},
    close: () => new Promise<void>((done) => server.close(done)),
  };
  return mail;
}
