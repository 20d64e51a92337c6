import { readWitnessKey } from '@bakehouse/ledger';
import ipaddr from 'ipaddr.js';
import path from 'node:path';
import * as z from 'zod';

/** The folder of the whole project: the same depth from src and from dist. */
export const projectRoot = path.resolve(import.meta.dirname, '../../../../..');

const port = z.coerce.number().int().min(0).max(65_535);
const whole = (least: number, most: number): z.ZodType<number> => z.coerce.number().int().min(least).max(most);
const days = (least = 1): z.ZodType<number> => whole(least, 100 * 366);
const postgresUrl = z.url({ protocol: /^postgres(ql)?$/ });
const fromProject = (dir: string): string => path.resolve(projectRoot, dir);
const folder = z.string().transform(fromProject);
const yesOrNo = z.enum(['yes', 'no']).transform((word) => word === 'yes');

/** Never "all of them": then a stranger who writes the header chooses the address that guesses are counted by. */
const trustedProxies = z.string().transform((said, context): string[] | ((address: string, hop: number) => boolean) => {
  if (/^[1-9]$/.test(said)) return (_address, hop) => hop < Number(said); // 0 is who connects
  const networks = said.split(',').map((one) => one.trim());
  if (networks.every((one) => ipaddr.isValid(one) || ipaddr.isValidCIDR(one))) return networks;
  context.addIssue({ code: 'custom', message: 'the number of proxies in front (1 to 9), or their networks: 10.0.0.0/8, fd00::/8' });
  return z.NEVER;
});

/** `https://witness.example/ name+id+key, …`: what is sent where, and whose cosignature is expected back (c2sp.org/tlog-cosignature). */
const witnesses = z.string().transform((said, context) =>
  said.split(',').map((one) => {
    const [url = '', key = '', more] = one.trim().split(/\s+/);
    if (more === undefined && /^https?:$/.test(URL.parse(url)?.protocol ?? '') && readWitnessKey(key) !== undefined) return { url, key };
    context.addIssue({ code: 'custom', message: 'needs the address and the key of each witness: https://… name+id+key' });
    return z.NEVER;
  }),
);

const settings = z.object({
  PORT: port.default(3000),
  HOST: z.string().default('127.0.0.1'),
  DATA_DIR: z.string().default('.data').transform(fromProject),
  /** Whom the service logs in as: the role bakehouse_service or a member of it. This and OWNER_DATABASE_URL absent: a PostgreSQL of our own under DATA_DIR. */
  DATABASE_URL: postgresUrl.optional(),
  /** Who owns the tables: for `records -- migrate` and the few commands that change more than the service may. The service refuses to have it. */
  OWNER_DATABASE_URL: postgresUrl.optional(),
  DATABASE_POOL: whole(2, 200).default(12),
  /** After how long a request that does not go on arriving is let go, and an answer that nobody reads; and how long one may take to arrive at all. */
  STALLED_SECONDS: whole(1, 600).default(10),
  REQUEST_SECONDS: whole(1, 3600).default(180),
  /** Where the disk of our own database has less left than this, the service says that it is not ready. */
  LEAST_FREE_MB: whole(0, 1_000_000_000).default(200),
  /** What one device may send in 24 hours (one person, where there is no device): a busy week’s deliveries, and not what fills a disk. */
  PHOTOS_PER_DAY: whole(1, 1_000_000).default(500),
  PHOTO_MB_PER_DAY: whole(1, 1_000_000).default(250),
  LOG_LEVEL: z.enum(['silent', 'error', 'warn', 'info', 'debug']).default('warn'),
  /** 'json': one JSON object a line, for programs that collect logs. */
  LOG_FORMAT: z.enum(['text', 'json']).default('text'),
  /** With this as a bearer's token, /metrics tells how the service does. Absent: there is no /metrics. */
  METRICS_TOKEN: z.string().min(16).optional(),
  /** How long a sign-on lasts at most; how long without a touch after a tapped name, and after a PIN. */
  SESSION_MINUTES: whole(1, 24 * 60).default(12 * 60),
  TAPPED_IDLE_MINUTES: whole(1, 24 * 60).default(4 * 60),
  PIN_IDLE_MINUTES: whole(1, 24 * 60).default(30),
  /** For how many days ordinary data is kept; platform/jobs/retention.ts says of each why. */
  KEEP_SESSIONS_DAYS: days().default(90),
  KEEP_SIGNATURE_TOKENS_DAYS: days().default(7),
  KEEP_ENROLMENT_CODES_DAYS: days().default(30),
  KEEP_VIEWINGS_DAYS: days(366).default(6 * 366),
  KEEP_SET_ASIDE_RECORDED_DAYS: days(8).default(30),
  KEEP_SET_ASIDE_DAYS: days(30).default(2 * 366),
  KEEP_SECURITY_EVENTS_DAYS: days(31).default(400),
  /** Not deleted by itself: how old the last record that rests on a name must be before `records -- erase` erases it without more ado. */
  KEEP_NAMES_DAYS: days(366).default(6 * 366),
  KEEP_WRONG_GUESSES_DAYS: days().default(1),
  KEEP_KNOWN_PLACES_DAYS: days().default(90),
  /** Fills an empty database with the invented bakehouse. */
  SEED_DEMO: yesOrNo.default(true),
  /** The Ed25519 key that seals are signed with: 32 bytes in base64. Absent: one is made and kept under DATA_DIR/keys. Several processes need the same. */
  SEAL_KEY: z
    .base64()
    .refine((key) => Buffer.from(key, 'base64').length === 32, 'needs 32 bytes in base64')
    .optional(),
  /** Where the day's seals of each house are written as one file a day, to be mailed or printed; absent: none is written. */
  SEALS_DIR: folder.optional(),
  /** Who cosigns each day's seals: the address and the key of each, with a space between the two and commas between several. */
  WITNESSES: witnesses.optional(),
  /** Where a backup is put once a day; absent: none is taken unless somebody asks. Best on another disk than the records. */
  BACKUP_DIR: folder.optional(),
  /** The public keys that backups are encrypted to, with commas between them: `npm run records -- backup-key` makes a pair. */
  BACKUP_TO: z
    .string()
    .transform((said) => said.split(',').map((one) => one.trim()))
    .refine((all) => all.every((one) => /^age1[02-9ac-hj-np-z]{58}$/.test(one)), 'needs public keys, each beginning with age1')
    .optional(),
  /** A certificate (with those between it and its root) and its key, as PEM: the service then speaks TLS alone. Read again when they change. */
  TLS_CERT_FILE: folder.optional(),
  TLS_KEY_FILE: folder.optional(),
  /** Whose X-Forwarded-For is believed: so many proxies in front, or those of these networks. Absent: nobody's, and who connects is who asks. */
  TRUST_PROXY: trustedProxies.optional(),
});

export type Config = ReturnType<typeof readConfig>;

/**
 * Settings from the environment; an empty word counts as absent. The only reader of `process.env`.
 * @throws with one sentence that names each wrong setting
 */
export function readConfig(env: Readonly<Record<string, string | undefined>> = process.env): Readonly<z.output<typeof settings>> {
  const given = Object.fromEntries(Object.entries(env).filter(([, word]) => word !== undefined && word !== ''));
  const read = settings.safeParse(given);
  if (read.success) return Object.freeze(read.data);
  throw new Error(`These settings cannot be used: ${read.error.issues.map((i) => `${i.path.join('.')} (${i.message})`).join('; ')}.`);
}

/** Whether the database is one of our own under DATA_DIR, and not a server of somebody's. */
export const isOurOwn = (config: Pick<Config, 'DATABASE_URL' | 'OWNER_DATABASE_URL'>): boolean =>
  config.DATABASE_URL === undefined && config.OWNER_DATABASE_URL === undefined;

/** The environment for a program of somebody else's, with changes: PostgreSQL wants a locale that is always there. */
export function childEnvironment(changes: Readonly<Record<string, string>> = {}): NodeJS.ProcessEnv {
  return { ...process.env, ...changes };
}
