import { kindOf, snapshotOf, type ReadEntry, type Snapshot } from '@bakehouse/records';
import { isZone, onTheWall, refuse, type Refused } from '@bakehouse/kernel';
import * as z from 'zod';
import type { Clock } from './ports/clock.js';
import type { Ids } from './ports/ids.js';
import type { Timer } from './ports/timer.js';
import { comesAfter } from './replay/depends-on.js';
import { Optimistic } from './replay/optimistic.js';
import type { Door } from './send/door.js';
import { Sender } from './send/sender.js';
import type { Kept } from './store/kept.js';
import { pendingOf, type NewEntry, type Outbox, type OutboxContent } from './store/outbox.js';
import type { SavedEntry } from './store/saved-entry.js';
import type { NightSite, TabletState } from './tablet-state.js';

/** What the night route answers, as far as a device keeps it. */
export const nightAnswer = z.object({
  site: z.object({ id: z.string(), name: z.string(), zone: z.string(), dayStarts: z.string() }),
  day: z.string(),
  asOf: z.string(),
  sizes: z.array(z.object({ book: z.string(), name: z.string(), size: z.int() })),
  rows: z.record(z.string(), z.array(z.looseObject({ id: z.string() }))),
});
export type NightAnswer = z.infer<typeof nightAnswer>;
const keptNight = nightAnswer.extend({ organisation: z.string(), clockErrorMs: z.int().nullable() });

export interface TabletPorts {
  readonly outbox: Outbox;
  readonly kept: Kept;
  readonly door: Door;
  readonly clock: Clock;
  readonly ids: Ids;
  readonly timer: Timer;
  /** The night of a day from the server; undefined where it cannot be reached. */
  night(site: string, day: string): Promise<NightAnswer | undefined>;
  readonly device: string | null;
}

/** What a person does: everything about an entry that the device cannot know by itself. */
export interface Draft {
  readonly kind: string;
  readonly payload: unknown;
  readonly words?: Readonly<Record<string, string>>;
  readonly corrects?: string;
  /** When it happened, where that is not now. */
  readonly at?: Date;
  readonly precision?: 'exact' | 'about';
  /** Who did it, where that is not who types. */
  readonly doneBy?: string | null;
}
export type Recorded = { readonly ok: true; readonly id: string; readonly outcome: unknown } | Refused;

/** Recorded entries stay on the list of what was done lately for so long. */
const keptMs = 36 * 3_600_000;

/** One device at one site: what it shows, what it saves, and what it sends. */
export class Tablet {
  private readonly sender: Sender;
  private readonly listeners = new Set<() => void>();
  private base: Snapshot = snapshotOf();
  private held: z.infer<typeof keptNight> | null = null;
  private content: OutboxContent = { entries: [], damage: [] };
  private optimistic: Optimistic;
  /** Newer rows came: what stands on the old ones is worked out anew. */
  private stale = false;
  private readonly reads = new Map<string, ReadEntry | Refused>();
  private connected: boolean | null = null;
  private current: TabletState;

  private constructor(
    private readonly ports: TabletPorts,
    private readonly site: NightSite,
    private day: string,
  ) {
    this.sender = new Sender(ports.outbox, ports.door, ports.timer, async (state) => {
      if (state.connected !== null) this.connected = state.connected;
      await this.reread();
    });
    this.optimistic = this.projected();
    this.current = this.stateNow();
  }

  /** Opens what the device holds: its last snapshot of this site, and everything that was typed. A bake day that was chosen here lately stays chosen over `day`. */
  static async open(ports: TabletPorts, site: NightSite, day: string): Promise<Tablet> {
    const chosen = await ports.kept.get(dayKey, chosenDay);
    const fresh = chosen !== null && ports.clock.now().getTime() - Date.parse(chosen.at) < dayKeptMs;
    const tablet = new Tablet(ports, site, fresh ? chosen.day : day);
    const kept = await ports.kept.get(nightKey(site.id), keptNight);
    if (kept?.organisation === site.organisation) tablet.take(kept);
    await tablet.reread();
    return tablet;
  }

  get state(): TabletState {
    return this.current;
  }

  subscribe(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => {
      this.listeners.delete(listener);
    };
  }

  /** What an entry would meet, were it saved now. Saves nothing. */
  judge(draft: Draft, typedBy: string): { readonly ok: true; readonly outcome: unknown } | Refused {
    const raw = this.entryOf(draft, typedBy, 0);
    return raw ? this.optimistic.judge(raw, typedBy, this.ports.clock.now().toISOString()) : refuse('unknown-kind', 'kind');
  }

  /**
   * Says at once what comes of it, saves it on the device, and sends it when it can. What would be refused is not saved: whoever typed it still
   * has it before them.
   */
  async record(draft: Draft, typedBy: string): Promise<Recorded> {
    const found = this.judge(draft, typedBy);
    if (!found.ok) return found;
    const entry = this.entryOf(draft, typedBy, 0);
    if (!entry) return refuse('unknown-kind', 'kind');
    const saved = await this.ports.outbox.save((seq) => this.toSave({ ...entry, device: this.deviceOf(seq) }, typedBy, null));
    await this.saved();
    return { ok: true, id: saved.id, outcome: found.outcome };
  }

  /**
   * The same for what is signed. `sign` turns the entry, exactly as it will be sent, into a signature; where it gives none, nothing is saved.
   * Decided on line: whether it holds is known when `refresh` comes back.
   */
  async recordSigned(draft: Draft, typedBy: string, sign: (entry: unknown) => Promise<string | undefined>): Promise<Recorded | undefined> {
    const found = this.judge(draft, typedBy);
    if (!found.ok) return found;
    const entry = this.entryOf(draft, typedBy, await this.ports.outbox.reserve());
    const signature = entry && (await sign(entry));
    if (!entry || signature === undefined) return undefined;
    const saved = await this.ports.outbox.save(() => this.toSave(entry, typedBy, signature), entry.device.seq);
    await this.saved();
    return { ok: true, id: saved.id, outcome: found.outcome };
  }

  /** A person's answer to something that was refused. */
  async answer(saved: SavedEntry, answer: 'again' | 'archived'): Promise<void> {
    await this.ports.outbox.answer(saved.seq, answer);
    await this.saved();
  }

  /** Goes over to another bake day, at once and off line too, and remembers it for the rest of the night. */
  async choose(day: string): Promise<void> {
    this.day = day;
    await this.ports.kept.put(dayKey, { day, at: this.ports.clock.now().toISOString() });
    await this.reread();
    await this.refresh();
  }

  /** Sends what waits, then fetches how things stand. */
  async refresh(): Promise<void> {
    const { day } = this;
    await this.sender.wake();
    const { clock, night, outbox, kept } = this.ports;
    const before = clock.now();
    const answer = await night(this.site.id, day);
    this.connected = answer !== undefined;
    if (answer) {
      const middle = (before.getTime() + clock.now().getTime()) / 2;
      const held = { ...answer, organisation: this.site.organisation, clockErrorMs: Math.round(middle - Date.parse(answer.asOf)) };
      this.take(held);
      await kept.put(nightKey(this.site.id), held);
      await outbox.shown(new Map(answer.sizes.map((s) => [s.book, s.size])));
      await outbox.prune(new Date(clock.now().getTime() - keptMs).toISOString());
    }
    await this.reread();
  }

  /** Rereads the store: another tab, or the sender, may have changed it. */
  async reread(): Promise<void> {
    this.content = await this.ports.outbox.read();
    if (this.stale || !this.optimistic.goOn(this.content.entries)) this.optimistic = this.projected();
    this.stale = false;
    this.current = this.stateNow();
    this.listeners.forEach((tell) => {
      tell();
    });
  }

  stop(): void {
    this.sender.stop();
  }

  private take(night: z.infer<typeof keptNight>): void {
    this.held = night;
    this.stale = true;
    this.base = snapshotOf(night.rows as Partial<Snapshot>); // rows as the kinds wrote them, by the contract of the night's route
  }

  private projected(): Optimistic {
    const { organisation, id, zone } = this.site;
    const size = this.held?.sizes.find((s) => s.book === id)?.size ?? 0;
    return new Optimistic(this.base, { organisation, id, zone, size }, this.content.entries, this.reads);
  }

  private stateNow(): TabletState {
    const { entries, damage } = this.content;
    return {
      site: this.site,
      day: this.day,
      snapshot: this.optimistic.snapshot(),
      rows: this.optimistic.state,
      asOf: this.held?.asOf ?? null,
      connected: this.connected,
      pending: pendingOf(entries),
      refused: entries.filter((e) => e.fate.as === 'refused' && !e.fate.archived),
      recent: [...entries].reverse(),
      verdicts: this.optimistic.verdicts,
      needsSignOn: this.sender.state.needsSignOn,
      damage,
      clockErrorMs: this.held?.clockErrorMs ?? null,
      sizes: this.held?.sizes ?? [],
    };
  }

  private entryOf({ kind, payload, words, corrects, at, precision = 'exact', doneBy }: Draft, typedBy: string, seq: number) {
    const version = kindOf({ kind })?.version;
    if (version === undefined) return undefined;
    const now = this.ports.clock.now();
    const salted = Object.entries(words ?? {})
      .filter(([, text]) => text.trim() !== '')
      .map(([key, text]) => [key, { text: text.trim(), salt: this.ports.ids.salt() }]);
    const after = comesAfter({ payload, corrects }, this.optimistic, pendingOf(this.content.entries));
    return {
      id: this.ports.ids.entry(now),
      kind,
      version,
      ...(after.length > 0 ? { after } : {}),
      occurredAt: { at: onTheWall((at ?? now).toISOString(), isZone(this.site.zone) ? this.site.zone : 'UTC'), precision },
      doneBy: doneBy === undefined ? typedBy : doneBy,
      device: this.deviceOf(seq),
      ...(corrects === undefined ? {} : { corrects }),
      ...(salted.length > 0 ? { words: Object.fromEntries(salted) } : {}),
      payload,
    };
  }

  private toSave(entry: Record<string, unknown> & { id: string; kind: string }, typedBy: string, signature: string | null): NewEntry {
    const bookType = kindOf(entry)?.book === 'organisation' ? 'organisation' : 'site';
    const book = bookType === 'organisation' ? this.site.organisation : this.site.id;
    return { id: entry.id, book, bookType, entry, typedBy, savedAt: this.ports.clock.now().toISOString(), signature };
  }

  private async saved(): Promise<void> {
    await this.reread();
    void this.sender.kick();
  }

  private deviceOf(seq: number) {
    return { id: this.ports.device, seq, clockErrorMs: this.held?.clockErrorMs ?? null };
  }
}

/** A night is over after so long: then the day on the wall counts again. */
const dayKeptMs = 12 * 3_600_000;
const dayKey = 'bake day';
const chosenDay = z.object({ day: z.iso.date(), at: z.iso.datetime() });
const nightKey = (site: string): string => `night ${site}`;
