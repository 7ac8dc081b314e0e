import { z } from 'zod';

const schema = z.object({
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
});

export type Env = z.infer<typeof schema>;

/** Reads the environment once; every missing or wrong variable is named in one message. */
export function readEnv(source: NodeJS.ProcessEnv): Env {
  const read = schema.safeParse(source);
  if (read.success) return read.data;
  const problems = read.error.issues.map(({ path, message }) => {
    const name = String(path[0]);
    return `  ${name}: ${source[name] === undefined ? 'missing' : `"${name.includes('SECRET') ? '…' : source[name]}"`}; needed: ${message}`;
  });
  throw new RangeError(`The API cannot start with these settings:\n${problems.join('\n')}`);
}
