import { createHash } from 'node:crypto';
import { kinds, type KindName } from '@bakehouse/records';
import sharp from 'sharp';
import request from 'supertest';
import * as z from 'zod';
import { connected } from '../../apps/api/src/platform/database/index.js';
import type { TestApp } from './app.js';
import type { Sample } from './every-kind.js';
import { FullHouse } from './full-house.js';
import { enrolledTablet } from './people.js';
import { signedBy } from './signed.js';

const named = new Set(['name', 'code', 'noteNumber', 'hazardName', 'asWritten', 'chemical', 'scope', 'team']);

/** The same value with a word in front of everything that somebody named. */
function marked(value: unknown, word: string, key = ''): unknown {
  if (Array.isArray(value)) return value.map((one) => marked(one, word, key));
  if (typeof value === 'object' && value !== null)
    return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, marked(v, word, k)]));
  return typeof value === 'string' && named.has(key) ? `${word} ${value}` : value;
}

/** A house whose names and words all say whose they are, and an id of each type that a call takes. */
export class ToldApart {
  private constructor(
    readonly full: FullHouse,
    readonly word: string,
    readonly photo: Buffer,
    readonly ids: ReadonlyMap<string, string>,
  ) {}

  static async found(t: TestApp, word: string, colour: string): Promise<ToldApart> {
    const full = await FullHouse.found(t, `${word} Yard`);
    const { house, site } = full.b;
    const everybody = full.caller('everybody');
    const samples = full.samples();
    const told = samples.map((s): Sample => ({
      ...s,
      payload: marked(s.payload, word),
      ...(s.words && { words: wordsOf(s.words, word) }),
    }));
    const entries = await signedBy(
      house,
      everybody.person,
      told.map((s) => house.rawEntry(s)),
    );
    await everybody
      .post(
        '/organisation/entries',
        entries.filter((e) => organisationKinds.has(e.kind)),
      )
      .expect(200);
    await everybody
      .post(
        `/sites/${site}/entries`,
        entries.filter((e) => !organisationKinds.has(e.kind)),
      )
      .expect(200);
    const photo = await sharp({ create: { width: 8, height: 8, channels: 3, background: colour } })
      .jpeg()
      .toBuffer();
    const sha256 = createHash('sha256').update(photo).digest('hex');
    await request(t.server)
      .put(`/api/v1/sites/${site}/photos/${sha256}`)
      .set('authorization', `Bearer ${everybody.token}`)
      .set('content-type', 'image/jpeg')
      .send(photo)
      .expect(204);
    return new ToldApart(full, word, photo, await idsOf(t, full, sha256, word));
  }

  id(place: string): string {
    const id = this.ids.get(place);
    if (id === undefined) throw new Error(`no ${place} is known of ${this.word}`);
    return id;
  }
}

const wordsOf = (words: Readonly<Record<string, string>>, word: string) =>
  Object.fromEntries(Object.entries(words).map(([key, text]) => [key, `${word} ${text}`]));

const organisationKinds: ReadonlySet<string> = new Set(kinds.filter((k) => k.book === 'organisation').map((k) => k.name));

const answer = z.looseObject({
  id: z.string().default(''),
  version: z.string().default(''),
  size: z.int().default(0),
  state: z.string().default(''),
});

async function idsOf(t: TestApp, full: FullHouse, sha256: string, word: string): Promise<ReadonlyMap<string, string>> {
  const { b, drafts } = full;
  const everybody = full.caller('everybody');
  const known = full.known();
  const fields = z.record(z.string(), z.unknown());
  const idOf = (kind: KindName, field: string): string => String(fields.parse(full.samples().find((s) => s.kind === kind)?.payload)[field]);
  const first = (name: string): string => known.get(name)?.[0] ?? '';
  const told = async (path: string): Promise<z.infer<typeof answer>> => answer.parse((await everybody.get(path)).body);
  const order = await told(`/sites/${b.site}/inspection/pack/order`);
  while ((await told(`/papers/${order.id}`)).state !== 'done') await everybody.get('/me').expect(200);
  const rows = await connected(t.database.ownerUrl, (owner) =>
    owner.query<{ id: string }>('SELECT id FROM security_event WHERE organisation = $1 LIMIT 1', [b.house.organisation]),
  );
  return new Map([
    ...['instrument', 'material', 'hold', 'deviation'].map((name) => [name, first(name)] as const),
    ['lot', idOf('lot-counted', 'lot')],
    ['recall', idOf('recall-disposition-decided', 'recall')],
    ['site', b.site],
    ['book', b.site],
    ['organisation', b.house.organisation],
    ['person', full.caller('viewer').person],
    ['device', (await enrolledTablet(b.house, `${word} second table`)).id],
    ['plan', b.plan],
    ['series', b.ids.plan],
    ['siteSize', String((await told(`/sites/${b.site}/seal`)).size)],
    ['houseSize', String((await told('/organisation/seal')).size)],
    ['formula', b.ids.formulas.white],
    ['product', b.material('bloomer')],
    ['mixer', b.place('mixer')],
    ['formulaDraft', drafts.formula],
    ['planDraft', drafts.plan],
    ['order', order.id],
    ['version', (await told(`/sites/${b.site}/night`)).version],
    ['sha256', sha256],
    ['code', word],
    ['event', rows.rows[0]?.id ?? b.newId()],
  ]);
}
