import { rootCertificates } from 'node:tls';
import { createTransport } from 'nodemailer';
import { whyNoTls } from './why-no-tls.ts';

/** How the shop's mail leaves the house. */
export interface SmtpSettings {
  host: string;
  port: number;
  /** starttls: refused where the server has none; implicit: TLS from the first byte (RFC 8314); none: a relay on this host only. */
  tls: 'starttls' | 'implicit' | 'none';
  login: { user: string; pass: string } | null;
  from: string;
  /** Authorities that may vouch for the server besides the well-known ones, in PEM. */
  authorities?: readonly string[];
}

export interface OutgoingMail {
  id: string;
  fromName: string;
  to: { address: string; name: string };
  replyTo: string | null;
  subject: string;
  text: string;
  /** When it was asked for: the same at every try. */
  date: Date;
  automatic: boolean;
  files: readonly { filename: string; mime: string; content: Buffer }[];
}

/** How a try ended. `words` are the server's own, or the connection's. */
export type Outcome =
  | { kind: 'sent'; words: string }
  | { kind: 'refused'; words: string }
  | { kind: 'delayed'; words: string };

const MOST_WORDS = 500;
const oneLine = (words: string) =>
  words
    .replace(/\p{Cc}+/gu, ' ')
    .trim()
    .slice(0, MOST_WORDS);

/** Fixed by the mail's id, so that whoever gets it twice can know that it is one (RFC 5322, 3.6.4). */
export const messageIdOf = (id: string, from: string) =>
  `<${id}@${from.slice(from.lastIndexOf('@') + 1)}>`;

/** Waits as long as RFC 5321, 4.5.3.2, wants for the end of the data: giving up sooner makes duplicates. */
const waits = { connectionTimeout: 60_000, greetingTimeout: 300_000, socketTimeout: 600_000 };

/** Hands a mail to the server once. What goes out has the same bytes at every try. Never throws: a failure is an outcome. */
export async function handOver(
  smtp: SmtpSettings,
  mail: OutgoingMail,
  patience: Partial<typeof waits> = {},
): Promise<Outcome> {
  const transport = createTransport({
    host: smtp.host,
    port: smtp.port,
    secure: smtp.tls === 'implicit',
    requireTLS: smtp.tls === 'starttls',
    ignoreTLS: smtp.tls === 'none',
    ...(smtp.login && { auth: smtp.login }),
    ...(smtp.authorities && { tls: { ca: [...rootCertificates, ...smtp.authorities] } }),
    // Nothing that a text names is ever read from a disk or the network.
    disableFileAccess: true,
    disableUrlAccess: true,
    ...waits,
    ...patience,
  });
  try {
    const { response } = await transport.sendMail({
      messageId: messageIdOf(mail.id, smtp.from),
      date: mail.date,
      from: { name: mail.fromName, address: smtp.from },
      to: { name: mail.to.name, address: mail.to.address },
      ...(mail.replyTo !== null && { replyTo: mail.replyTo }),
      subject: mail.subject,
      text: mail.text,
      // RFC 3834: so that an answering machine does not answer the program.
      ...(mail.automatic && { headers: { 'Auto-Submitted': 'auto-generated' } }),
      attachments: mail.files.map(({ filename, mime, content }) => ({
        filename,
        contentType: mime,
        content,
      })),
      baseBoundary: mail.id,
    });
    return { kind: 'sent', words: oneLine(response) };
  } catch (error) {
    return outcomeOf(error, smtp.host);
  } finally {
    transport.close();
  }
}

/**
 * A refusal for good (5yz, RFC 5321, 4.2.1) of this recipient or this mail ends it. Everything else is of the moment or of the
 * settings (no connection, no TLS, a wrong password, 4yz) and is tried again.
 */
function outcomeOf(error: unknown, host: string): Outcome {
  const { message, code, response, responseCode } = error as Error & {
    code?: string;
    response?: string;
    responseCode?: number;
  };
  // Where TLS fails, what the server answered to STARTTLS says less than why the connection was given up.
  const said = code === 'ETLS' ? message : (response ?? message);
  const words = oneLine((responseCode === undefined && whyNoTls(said, host)) || said);
  const ofThisMail = code === 'EENVELOPE' || code === 'EMESSAGE';
  const forGood = responseCode !== undefined && responseCode >= 500;
  return { kind: ofThisMail && forGood ? 'refused' : 'delayed', words };
}
