import type { Description, Operation, Parameter } from './described.js';
import { Dice } from './dice.js';
import { FromSchema } from './from-schema.js';
import type { Calls, FullHouse } from './full-house.js';
import type { Sent } from './injected.js';
import { bytesOf, inAddress, mutated, nastyTexts } from './nasty.js';

export interface Fuzzed extends Sent {
  readonly of: Operation;
  readonly by: string;
}

/** What takes long to make, and is made as well by few requests as by many. */
const rarely = /\.(pdf|xlsx)$|\/order$|\/extend$/;

/** Requests as the description asks for them, and the same with something wrong in them: always the same ones for a seed and a number. */
export class FuzzedRequests {
  private readonly schema: FromSchema;
  private readonly calculations: readonly Operation[];
  private readonly entries: readonly Operation[];
  private readonly others: readonly Operation[];
  private readonly operations: readonly Operation[];

  constructor(
    { operations, schemas }: Description,
    private readonly house: FullHouse,
    private readonly seed: number,
  ) {
    this.schema = new FromSchema(schemas, house.known());
    this.operations = operations;
    this.calculations = operations.filter((o) => o.path.includes('/calculate/'));
    this.entries = operations.filter((o) => o.path.endsWith('/entries'));
    this.others = operations.filter((o) => !this.calculations.includes(o) && !this.entries.includes(o));
  }

  async request(number: number): Promise<Fuzzed> {
    const dice = new Dice(Math.imul(this.seed, 1_000_003) + number);
    const of = this.operations[number % 1000] ?? this.operation(dice); // every one of them now and then, however many there are
    const by = dice.of(this.house.callers());
    const wrong = dice.chance(0.6);
    const query = of.parameters.filter((p) => p.in === 'query').flatMap((p) => this.query(p, dice, wrong));
    const path = of.path.replace(/\{(\w+)\}/g, (_, name: string) => this.place(of, name, dice, wrong));
    const body = of.body === undefined ? undefined : await this.body(of, of.body, by, dice, wrong);
    return {
      of,
      by: by.name,
      method: of.method,
      url: `${path}${query.length === 0 ? '' : `?${query.join('&')}`}`,
      headers: {
        ...(body === undefined ? {} : { 'content-type': of.body?.type ?? '' }),
        ...(of.parameters.some((p) => p.name === 'If-Match') && dice.chance(0.9) ? { 'if-match': `"${dice.below(4)}"` } : {}),
        ...by.headers,
        ...(wrong && dice.chance(0.2) ? oddHeaders(dice, by) : {}),
      },
      payload: body,
      remoteAddress: `10.${dice.below(256)}.${dice.below(256)}.${dice.below(256)}`,
    };
  }

  private operation(dice: Dice): Operation {
    const of = dice.next();
    if (of < 0.3) return dice.of(this.entries);
    if (of < 0.42) return dice.of(this.calculations);
    const one = dice.of(this.others);
    return rarely.test(one.path) && dice.chance(0.9) ? this.operation(dice) : one;
  }

  private place(of: Operation, name: string, dice: Dice, wrong: boolean): string {
    const parameter = of.parameters.find((p) => p.name === name);
    if (parameter === undefined) throw new Error(`${of.name} does not describe {${name}}`);
    return wrong && dice.chance(0.2)
      ? inAddress(dice.of(nastyTexts).slice(0, 300), dice)
      : encodeURIComponent(text(this.schema.value(parameter.schema, dice, name)));
  }

  private query({ name, required, schema }: Parameter, dice: Dice, wrong: boolean): string[] {
    if (!dice.chance(required ? 0.97 : 0.5)) return [];
    const good = (): string => `${name}=${encodeURIComponent(text(this.schema.value(schema, dice, name)))}`;
    if (!wrong || dice.chance(0.6)) return [good()];
    const bad = `${name}=${inAddress(dice.of(nastyTexts), dice)}`;
    return dice.of([
      [bad],
      [good(), good()],
      [good(), bad],
      [`${name}[]=1`],
      [`${name}[x]=1`],
      [name],
      [good(), '__proto__=1'],
      [good(), 'constructor=1', '=', '&&'],
    ]);
  }

  private async body(
    of: Operation,
    { type, schema, example }: NonNullable<Operation['body']>,
    by: Calls,
    dice: Dice,
    wrong: boolean,
  ): Promise<string | Buffer> {
    if (!type.endsWith('json')) return Buffer.from(dice.of(['', 'GIF89a', '\u0089PNG\r\n\u001a\n', dice.hex(2000)]), 'latin1');
    const good = this.entries.includes(of) && dice.chance(0.8) ? this.someEntries(dice) : this.sampled(schema, example, dice);
    const known = withPin(
      of.path === '/api/v1/signatures' && dice.chance(0.8) ? { pin: '', entry: this.someEntries(dice)[0] } : good,
      by,
      dice,
    );
    if (!wrong) return JSON.stringify(known) ?? '';
    let bad = known;
    for (let i = dice.below(4); i >= 0; i -= 1) bad = mutated(bad, dice);
    return bytesOf(bad, dice);
  }

  private sampled(schema: Operation['answers'] extends ReadonlyMap<number, infer S> ? S : never, example: unknown, dice: Dice): unknown {
    return example !== undefined && dice.chance(0.5) ? example : this.schema.value(schema, dice);
  }

  private someEntries(dice: Dice): unknown[] {
    const samples = this.house.samples();
    return Array.from({ length: 1 + dice.below(3) }, () => this.house.b.house.rawEntry({ ...dice.of(samples), id: dice.uuid() }));
  }
}

const text = (value: unknown): string => (typeof value === 'string' ? value : (JSON.stringify(value) ?? ''));

/** A body that asks for a PIN has the caller's own in most cases, else nothing behind it would be tried. */
function withPin(body: unknown, { pin }: Calls, dice: Dice): unknown {
  if (typeof body !== 'object' || body === null || pin === '' || !dice.chance(0.7)) return body;
  const key = 'currentPin' in body ? 'currentPin' : 'entry' in body && 'pin' in body ? 'pin' : undefined;
  return key === undefined ? body : { ...body, [key]: pin };
}

const oddHeaders = (dice: Dice, { headers }: Calls): Record<string, string> =>
  dice.of<() => Record<string, string>>([
    () => ({
      authorization: `Bearer ${dice.of(['x', 'a.b', dice.hex(64), `${dice.uuid()}.${dice.hex(43)}`, `${headers['authorization'] ?? ''}x`, '\u00e9'])}`,
    }),
    () => ({ authorization: dice.of(['', 'Bearer', 'Basic eDp4', 'Bearer a b', `Bearer ${'x'.repeat(9000)}`]) }),
    () => ({ authorization: `Bearer ${headers['x-device-token'] ?? 'none'}` }),
    () => ({ 'x-device-token': dice.of(['', 'x', `${dice.uuid()}.${dice.hex(43)}`, headers['authorization']?.slice(7) ?? '', '\u0000']) }),
    () => ({ cookie: dice.of(['=', ';;;', 'session=x; session=y', '__proto__=1', `a=${'x'.repeat(9000)}`, '%=%ff']) }),
    () => ({
      'content-type': dice.of([
        '',
        'text/plain',
        'application/json; charset=utf-16',
        'multipart/form-data',
        'application/xml',
        'nonsense',
        'image/png',
      ]),
    }),
    () => ({ 'content-length': dice.of(['0', '1', '-1', 'x', '99999999999']) }),
    () => ({ 'if-match': dice.of(['*', '1', '"x"', 'W/"1"', '"99999999999999999999"', '"1", "2"', '"\u0000"']) }),
    () => ({ 'if-none-match': dice.of(['*', '"x"', 'W/"', ',,,']) }),
    () => ({ 'accept-encoding': dice.of(['br', 'gzip;q=0', 'zstd', '*', ',,,', 'identity;q=0']) }),
    () => ({ accept: dice.of(['text/html', 'x', '*/*;q=x']) }),
    () => ({ origin: dice.of(['null', 'https://elsewhere.example', '']), 'sec-fetch-site': dice.of(['cross-site', 'x', '']) }),
    () => ({ 'last-event-id': dice.of(['x', '-1', '9'.repeat(50), '\u0000']) }),
    () => ({ host: dice.of(['', 'x:y', '[::1', 'a b']) }),
    () => ({ 'x-forwarded-for': dice.of(['x', '1.1.1.1, 2.2.2.2', '::1']) }),
    () => ({ 'transfer-encoding': 'chunked' }),
    () => ({ expect: '100-continue' }),
  ])();
