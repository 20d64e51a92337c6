import { entryResults, openThings, type EntryResult } from '@bakehouse/contracts';
import { permissionsOf } from '@bakehouse/kernel';
import { batchesOf, lookupOf } from '@bakehouse/views';
import { kinds, type KindName } from '@bakehouse/records';
import { withholdCommand } from '../../../apps/api/src/withhold.command.js';
import type { Bakehouse } from '../../support/bakehouse.js';
import { everyKind, type Sample } from '../../support/every-kind.js';
import { enrolledTablet, type Caller } from '../../support/people.js';
import { signedBy } from '../../support/signed.js';
import { decisionAbout } from './decisions.js';
import { chosenIn, drawn } from './draw.js';
import { picked, There } from './there.js';

/** Who writes: at a tablet by a tapped name, or in the office with a PIN. */
interface Writer {
  readonly caller: Caller;
  readonly atTablet: boolean;
  /** What a tablet without a network has not sent yet, by book. */
  readonly outbox: Written[];
}
interface Written {
  readonly kind: string;
  readonly path: string;
  readonly entry: { readonly id: string };
  readonly payload: unknown;
  readonly words: Sample['words'];
  readonly fresh: boolean;
}
export interface Answered {
  readonly kind: string;
  readonly fresh: boolean;
  readonly result: EntryResult;
}
type Known = Pick<Written, 'kind' | 'path' | 'payload' | 'words'> & { readonly id: string; readonly own: ReadonlySet<string> };

const declared = new Map<string, (typeof kinds)[number]>(kinds.map((k) => [k.name, k]));
/** Drawn in a way of their own. */
const apart: ReadonlySet<string> = new Set(['entry-withdrawn', 'released-by-rule']);
const byBaker: ReadonlySet<string> = new Set(permissionsOf.baker);

/**
 * A random history of a bakehouse over every kind that is declared: what a good payload of each says, about whatever is in the house by then and with other
 * amounts, written by two tablets and two people in the office at once. Tablets send late; what was recorded is corrected and withdrawn; the office decides
 * about what its list says is on hold. The seed fixes what is drawn; which of two that write at once comes first is chance, as in the house.
 */
export class History {
  readonly answered: Answered[] = [];
  /** What was recorded so far, by kind. */
  readonly kinds = new Set<string>();
  /** The cases that were opened, each with the lot that it was opened on. */
  readonly cases: { readonly id: string; readonly lot: string }[] = [];
  private readonly recorded: Known[] = [];

  private constructor(
    private readonly b: Bakehouse,
    private readonly random: () => number,
    private readonly samples: () => Sample[],
    private readonly writers: readonly Writer[],
    private readonly people: readonly string[],
    private there: There,
  ) {}

  static async begin(b: Bakehouse, random: () => number): Promise<History> {
    const samples = await everyKind(b);
    const other = await enrolledTablet(b.house, 'The oven');
    const { person } = await b.house.join('Ov Enhand', ['baker']);
    const office = ['baker', 'manager', 'food-safety-lead', 'administrator'] as const;
    const callers = [await b.house.signedOn('Of Fice', office), await b.house.signedOn('Des Kh', office)];
    const writers = [
      { caller: b.baker.caller, atTablet: true, outbox: [] },
      { caller: await other.tap(person), atTablet: true, outbox: [] },
      ...callers.map((caller) => ({ caller, atTablet: false, outbox: [] })),
    ];
    const people = [...writers.map((w) => w.caller.person), b.lead.caller.person, b.owner.caller.person, b.house.administrator.person];
    return new History(b, random, samples, writers, people, await There.at(b, people));
  }

  /** Everybody writes at once: some of what every kind says, and in the office a decision about each of a few lots on hold. */
  async round(): Promise<void> {
    const first = this.answered.length === 0;
    await this.releaseWhatIsReady();
    this.there = await There.at(this.b, this.people);
    const open = openThings.parse((await this.b.lead.caller.get(`/sites/${this.b.site}/open`).expect(200)).body);
    for (const writer of this.writers) for (const sample of this.share(writer)) writer.outbox.push(this.fresh(sample));
    for (const writer of this.writers) {
      for (let i = 0; i < 4; i += 1) writer.outbox.push(...this.changed(writer));
      if (writer.atTablet) continue;
      for (let i = 0; i < 3; i += 1) {
        const held = picked(open.held, this.random);
        const decision = held && decisionAbout(held, this.random);
        if (decision) writer.outbox.push(this.fresh(decision));
      }
    }
    const sending = this.writers.filter((w) => !w.atTablet || (!first && this.random() < 0.5)); // at first, no tablet has a network
    for (const answers of await Promise.all(sending.map((w) => this.send(w)))) this.keep(answers);
  }

  /** Somebody opens a case on a lot that the house has, and the service works out what it reaches. */
  async openCase(): Promise<void> {
    const [id, lot] = [this.b.newId(), picked(this.there.of.get('lot') ?? [], this.random)];
    if (lot === undefined) return;
    const of = { id, suspect: [lot], hazard: 'physical', hazardName: 'glass', practice: false, said: '' };
    await this.b.lead.caller.post('/recalls', of).expect(200);
    this.cases.push({ id, lot });
  }

  /** A tablet shows what is ready, and somebody taps it. */
  private async releaseWhatIsReady(): Promise<void> {
    const [tablet] = this.writers;
    const lookup = lookupOf(await this.b.night(), this.b.t.clock.now().toISOString(), 'Europe/London', this.b.site);
    const ready = batchesOf(lookup, '2026-11-25').filter((batch) => batch.release.state === 'may-go');
    if (!tablet || ready.length === 0) return;
    const kind = 'released-by-rule';
    const written = ready.map(({ id: batch }) => {
      const entry = this.b.house.entry({ kind, payload: { batch }, at: '2026-11-25T08:59:00Z' });
      return { kind, path: this.pathOf(kind), entry, payload: { batch }, words: undefined, fresh: true };
    });
    this.keep(await this.send({ ...tablet, outbox: written }));
  }

  /** Bodies of what may go are withheld while everybody writes on. No person records that: the command does. */
  async withhold(): Promise<void> {
    const said: string[] = [];
    const words = [
      '--kind',
      'cleaned-down',
      '--before',
      '2026-11-26',
      '--reason',
      'old',
      '--yes',
      '--by',
      this.b.house.administrator.person,
    ];
    await withholdCommand(this.b.t.database, { words, say: (line) => said.push(line) }, this.b.t.clock);
    if (said.some((line) => / [1-9]\d* withheld$/.test(line))) this.kinds.add('bodies-withheld');
  }

  /** The tablets find the network again. */
  async end(): Promise<void> {
    for (const answers of await Promise.all(this.writers.map((w) => this.send(w)))) this.keep(answers);
  }

  /** A random part of what this writer may record; what ends a thing for everybody is rare. */
  private share({ atTablet }: Writer): Sample[] {
    return this.samples().filter(({ kind }) => {
      const of = declared.get(kind);
      const tablets = of?.book !== 'organisation' && of?.signed === null && byBaker.has(of.permission);
      if (apart.has(kind) || of?.permission === 'withhold' || of?.permission === 'service' || tablets !== atTablet) return false;
      return this.random() < (atTablet ? 0.5 : 0.25) || !this.kinds.has(kind);
    });
  }

  private fresh({ kind, payload, words }: Sample): Written {
    const asItStands = !this.kinds.has(kind) && this.random() < 0.5;
    const said = asItStands ? payload : drawn(payload, { kind, random: this.random, there: this.there, own: new Set() });
    const entry = this.b.house.rawEntry({ kind, payload: said, at: this.time(), ...(words && { words }) });
    return { kind, path: this.pathOf(kind), entry, payload: said, words, fresh: true };
  }

  /** Something that was recorded says something else now, or is taken back. */
  private changed(writer: Writer): Written[] {
    const of = picked(this.recorded, this.random);
    if (!of || (writer.atTablet && (of.path.startsWith('/organisation') || declared.get(of.kind)?.signed !== null))) return [];
    const words = { ...of.words, reason: 'it was otherwise' };
    const withdrawn = this.random() < 0.3;
    const kind = withdrawn ? 'entry-withdrawn' : of.kind;
    const payload = withdrawn ? {} : drawn(of.payload, { kind, random: this.random, there: this.there, own: of.own });
    const said = withdrawn ? { reason: 'a slip' } : words;
    const entry = this.b.house.rawEntry({ kind, payload, at: this.time(), corrects: of.id, words: said });
    return [{ kind, path: of.path, entry, payload, words: said, fresh: false }];
  }

  private async send({ caller, outbox }: Writer): Promise<readonly (readonly [Written, EntryResult])[]> {
    const mine = outbox.splice(0);
    const answers: (readonly [Written, EntryResult])[] = [];
    for (const path of new Set(mine.map((w) => w.path))) {
      const these = mine.filter((w) => w.path === path);
      const signed = await signedBy(this.b.house, caller.person, these.map((w) => w.entry)); // prettier-ignore
      const { body } = await caller.post(path, signed).expect(200);
      const results = entryResults.parse(body);
      these.forEach((w, i) => {
        const result = results[i];
        if (result) answers.push([w, result]);
      });
    }
    return answers;
  }

  private keep(answers: readonly (readonly [Written, EntryResult])[]): void {
    for (const [{ kind, path, entry, payload, words, fresh }, result] of answers) {
      this.answered.push({ kind, fresh, result });
      if (result.as !== 'recorded') continue;
      this.kinds.add(kind);
      if (fresh) this.recorded.push({ kind, path, payload, words, id: entry.id, own: chosenIn(payload, this.there) });
    }
  }

  private pathOf(kind: KindName): string {
    return declared.get(kind)?.book === 'organisation' ? '/organisation/entries' : `/sites/${this.b.site}/entries`;
  }

  private time(): string {
    return new Date(Date.parse('2026-11-25T01:00:00Z') + Math.floor(this.random() * 470) * 60_000).toISOString();
  }
}
