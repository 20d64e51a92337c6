import * as z from 'zod';
import type { Clock } from '../ports/clock.js';
import type { Kept } from '../store/kept.js';
import { breaks, goesOn, seenHead, sizeOf, type Break, type SeenHead, type SignedHead } from './goes-on.js';

/** So many breaks that are over are kept, the newest. */
const maxLeft = 20;

/** What does not go on from what was seen: both heads as they were signed, so that somebody outside can check it. */
const broken = z.object({
  why: breaks,
  name: z.string(),
  seen: seenHead,
  now: z.object({ note: z.string(), verifierKey: z.string() }),
  since: z.string(),
  /** The house was told. */
  told: z.boolean(),
});
/** Of one book: the last head that was right, what broke from it, and the breaks that are over. */
const remembered = z.object({ seen: seenHead.nullable(), broken: broken.nullable(), left: z.array(broken) });
export type BrokenHead = z.infer<typeof broken> & { readonly book: string };

export interface HeadPorts {
  readonly kept: Kept;
  readonly clock: Clock;
  /** The heads of some books as they are signed now, with proofs from these sizes; undefined where the service cannot be reached. */
  heads(sizes: ReadonlyMap<string, number>): Promise<readonly SignedHead[] | undefined>;
  /** Tells the house; whether it heard. */
  tell(broken: BrokenHead): Promise<boolean>;
}

/** Remembers the last signed head of each book of a site, and takes no other one for it that does not go on from there. */
export class SeenHeads {
  constructor(
    private readonly ports: HeadPorts,
    /** The site's, and the organisation's. */
    private readonly books: readonly string[],
  ) {}

  /** What does not go on, as far as this device knows. */
  async broken(): Promise<readonly BrokenHead[]> {
    const all = await Promise.all(this.books.map(async (book) => ({ book, ...(await this.of(book)).broken })));
    return all.flatMap(({ book, ...one }) => {
      const { data } = broken.safeParse(one);
      return data ? [{ book, ...data }] : [];
    });
  }

  /** Asks the service and holds what it shows against what was seen. Nothing that is typed waits for this. */
  async look(): Promise<readonly BrokenHead[]> {
    const before = new Map(await Promise.all(this.books.map(async (book) => [book, (await this.of(book)).seen] as const)));
    const sizes = new Map([...before].flatMap(([book, seen]) => (seen ? [[book, sizeOf(seen) ?? 0] as const] : [])));
    const heads = (await this.ports.heads(sizes)) ?? [];
    for (const head of heads) {
      const seen = before.get(head.book);
      if (seen !== undefined) await this.judge(seen, head);
    }
    for (const one of await this.broken())
      if (!one.told && (await this.ports.tell(one))) await this.change(one.book, (was) => toldOf(was, one));
    return this.broken();
  }

  /** Somebody who may has found out why: what is there now is what the device goes on from. What it saw before stays beside it. */
  async goOnFrom({ book, now }: BrokenHead): Promise<void> {
    const at = this.ports.clock.now().toISOString();
    await this.change(book, (was) => ({ ...leftBehind(was), seen: { ...now, at } }));
  }

  private async judge(asked: SeenHead | null, head: SignedHead): Promise<void> {
    const { book, name, note, verifierKey } = head;
    const found = goesOn(asked, head);
    const at = this.ports.clock.now().toISOString();
    await this.change(book, (was) => {
      if (was.seen?.note !== asked?.note) return was; // another page of this device saw a later one meanwhile: this answer is not about that
      if (found.ok) return { ...leftBehind(was), seen: { note, verifierKey, at } };
      return asked === null
        ? was
        : { ...was, broken: brokenBy(was.broken, { why: found.why, name, seen: asked, now: { note, verifierKey } }, at) };
    });
  }

  private async of(book: string): Promise<Remembered> {
    return (await this.ports.kept.get(keyOf(book), remembered)) ?? nothing;
  }

  private change(book: string, next: (was: Remembered) => Remembered): Promise<void> {
    return this.ports.kept.change(keyOf(book), remembered, (was) => next(was ?? nothing));
  }
}

type Remembered = z.infer<typeof remembered>;
const nothing: Remembered = { seen: null, broken: null, left: [] };
type Broken = z.infer<typeof broken>;

/** The same break is told once; the newest of the other side is kept, and since when it is so. */
function brokenBy(before: Broken | null, now: { why: Break } & Pick<Broken, 'name' | 'seen' | 'now'>, at: string): Broken {
  return before?.why === now.why ? { ...now, since: before.since, told: before.told } : { ...now, since: at, told: false };
}

/** The break is over, and what was seen of it is kept. */
const leftBehind = (was: Remembered): Remembered =>
  was.broken === null ? was : { ...was, broken: null, left: [...was.left, was.broken].slice(-maxLeft) };

const toldOf = (was: Remembered, { why }: BrokenHead): Remembered =>
  was.broken?.why === why ? { ...was, broken: { ...was.broken, told: true } } : was;

const keyOf = (book: string): string => `head ${book}`;
