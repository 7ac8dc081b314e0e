import { z } from 'zod';
import { mailAddress } from './mail-address.ts';
import { readAuthorities } from './post/authorities.ts';
import type { SmtpSettings } from './post/transport.ts';

const fields = {
  DATABASE_URL: z
    .string()
    .regex(/^postgres(ql)?:\/\//, 'a postgresql:// URL of the application login'),
  PORT: z.coerce.number().int().min(0).max(65_535).default(4100),
  /** The one address that browsers use, such as https://shop.example */
  WEB_ORIGIN: z
    .string()
    .regex(/^https?:\/\/[^/]+$/, 'an origin without a path, such as http://localhost:3000'),
  UPLOADS_DIR: z.string().min(1),
  SIGN_IN_SECRET: z.string().min(32, 'at least 32 characters, kept secret'),
  /** The mail server. Left out: mails are kept and shown on the Post sheet, and none is sent. */
  SMTP_HOST: z.string().min(1).optional(),
  SMTP_PORT: z.coerce.number().int().min(1).max(65_535).optional(),
  SMTP_TLS: z.enum(['starttls', 'implicit', 'none']).optional(),
  /** A file of authorities that may vouch for the mail server besides the well-known ones. */
  SMTP_CA: z
    .string()
    .refine(
      (file) => readAuthorities(file) !== null,
      'a PEM file that can be read, with certificates of authorities',
    )
    .optional(),
  SMTP_USER: z.string().min(1).optional(),
  SMTP_PASSWORD: z.string().min(1).optional(),
  /** The one address that mail of the shop comes from. */
  MAIL_FROM: z
    .string()
    .refine((given) => mailAddress(given) !== null, 'one e-mail address, such as shop@shop.example')
    .optional(),
};

const onThisHost = (host: string) => /^(localhost|127\.\d+\.\d+\.\d+|::1)$/.test(host);

const schema = z.object(fields).superRefine((env, found) => {
  const wants = (path: keyof typeof fields, message: string) =>
    found.addIssue({ code: 'custom', path: [path], message });
  if (env.SMTP_HOST === undefined) return;
  if (env.MAIL_FROM === undefined)
    wants('MAIL_FROM', 'the address that mail comes from, since SMTP_HOST is set');
  if ((env.SMTP_USER === undefined) !== (env.SMTP_PASSWORD === undefined))
    wants(
      env.SMTP_USER === undefined ? 'SMTP_USER' : 'SMTP_PASSWORD',
      'both or neither of user and password',
    );
  if (env.SMTP_TLS === 'none' && !onThisHost(env.SMTP_HOST))
    wants('SMTP_TLS', 'starttls or implicit, since the mail server is not on this host');
});

export type Env = z.infer<typeof schema>;

/** How mail leaves the house; null where no mail server is set. */
export function smtpOf(env: Partial<Env>): SmtpSettings | null {
  const { SMTP_HOST: host, SMTP_TLS: tls = 'starttls', SMTP_USER: user, SMTP_PASSWORD: pass } = env;
  if (host === undefined || env.MAIL_FROM === undefined) return null;
  const authorities = env.SMTP_CA === undefined ? null : readAuthorities(env.SMTP_CA);
  return {
    host,
    port: env.SMTP_PORT ?? (tls === 'implicit' ? 465 : tls === 'none' ? 25 : 587),
    tls,
    login: user !== undefined && pass !== undefined ? { user, pass } : null,
    from: mailAddress(env.MAIL_FROM) ?? env.MAIL_FROM,
    ...(authorities && { authorities }),
  };
}

/** Reads the environment once; every missing or wrong variable is named in one message. */
export function readEnv(given: NodeJS.ProcessEnv): Env {
  // docker compose hands on what is not set as an empty text.
  const source = Object.fromEntries(
    Object.entries(given).filter(([name, value]) => !(/^(SMTP|MAIL)_/.test(name) && value === '')),
  );
  const read = schema.safeParse(source);
  if (read.success) return read.data;
  const problems = read.error.issues.map(({ path, message }) => {
    const name = String(path[0]);
    return `  ${name}: ${source[name] === undefined ? 'missing' : `"${/SECRET|PASSWORD|DATABASE_URL/.test(name) ? '…' : source[name]}"`}; needed: ${message}`;
  });
  throw new RangeError(`The API cannot start with these settings:\n${problems.join('\n')}`);
}
