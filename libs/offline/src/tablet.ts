import { isZone, newEnvelope, onTheWall, refuse, type Refused, type SentEnvelope } from '@bakehouse/kernel';
import {
  kindNamed,
  outcomeOf,
  snapshotOf,
  type KindName,
  type NewEntry,
  type NewEntryOf,
  type OutcomeOf,
  type ReadEntry,
  type Snapshot,
} from '@bakehouse/records';
import * as z from 'zod';
import type { Clock } from './ports/clock.js';
import type { Ids } from './ports/ids.js';
import type { Timer } from './ports/timer.js';
import { comesAfter } from './replay/depends-on.js';
import { Optimistic } from './replay/optimistic.js';
import type { Door } from './send/door.js';
import { Sender } from './send/sender.js';
import type { Kept } from './store/kept.js';
import { pendingOf, type EntryToSave, type Outbox, type OutboxContent } from './store/outbox.js';
import type { SavedEntry } from './store/saved-entry.js';
import { Fetching, measuredError } from './fetching.js';
import { keptNight, withChanges, type KeptNight, type NightHeld, type NightReply } from './night-answer.js';
import type { NightSite, TabletState } from './tablet-state.js';
import type { Recorded } from './saved.js';

export interface TabletPorts {
  readonly outbox: Outbox;
  readonly kept: Kept;
  readonly door: Door;
  readonly clock: Clock;
  readonly ids: Ids;
  readonly timer: Timer;
  /** The night of a day from the server, asked for with what is held of it; undefined where it cannot be reached. */
  night(site: string, day: string, held: NightHeld | null): Promise<NightReply | undefined>;
  readonly device: string | null;
}

/** How long recorded entries stay on the list of recent entries. */
const keptMs = 36 * 3_600_000;

/** One device at one site: what it shows, what it saves, and what it sends. */
export class Tablet {
  private readonly sender: Sender;
  private readonly listeners = new Set<() => void>();
  private base: Snapshot = snapshotOf();
  private held: KeptNight | null = null;
  private content: OutboxContent = { entries: [], damage: [] };
  private optimistic: Optimistic;
  /** Newer rows came: what stands on the old ones is worked out anew. */
  private stale = false;
  private readonly reads = new Map<string, ReadEntry | Refused>();
  private connected: boolean | null = null;
  private readonly fetching = new Fetching();
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

  /** Opens what the device holds: its last snapshot of this site, and everything that was typed. A bake day recently chosen on this device takes precedence over `day`. */
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

  /** What time it is: by this device's clock, less the error that it was last measured to have. */
  now(): Date {
    return new Date(this.ports.clock.now().getTime() - (this.held?.clockErrorMs ?? 0));
  }

  subscribe(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => {
      this.listeners.delete(listener);
    };
  }

  /** What an entry would meet, were it saved now. Saves nothing. */
  judge<K extends KindName>(draft: NewEntryOf<K>, typedBy: string): { readonly ok: true; readonly outcome: OutcomeOf<K> } | Refused {
    const found = this.optimistic.judge(this.entryOf(draft, typedBy, 0), typedBy, this.now().toISOString());
    if (!found.ok) return found;
    const outcome = outcomeOf(draft.kind, found.outcome);
    return outcome === undefined ? refuse('fault') : { ok: true, outcome };
  }

  /**
   * Says at once what comes of it, saves it on the device, and sends it when it can. An entry that would be refused is not saved: the form still
   * has it before them, to be put right or kept with `recordEvenSo`.
   */
  async record<K extends KindName>(draft: NewEntryOf<K>, typedBy: string): Promise<Recorded<K>> {
    const found = this.judge(draft, typedBy);
    if (!found.ok) return found;
    return { ok: true, id: await this.keep(draft, typedBy), outcome: found.outcome };
  }

  /**
   * Keeps what this device would refuse: what it holds may be older than what the person sees. The service decides by its own records, and sets aside what
   * it refuses too, so that nothing that was typed is lost. Gives its id.
   */
  recordEvenSo<K extends KindName>(draft: NewEntryOf<K>, typedBy: string): Promise<string> {
    return this.keep(draft, typedBy);
  }

  /**
   * The same for what is signed. `sign` turns the entry, exactly as it will be sent, into a signature; where it gives none, nothing is saved.
   * Decided on line: whether it holds is known when `refresh` comes back.
   */
  async recordSigned<K extends KindName>(
    draft: NewEntryOf<K>,
    typedBy: string,
    sign: (entry: unknown) => Promise<string | undefined>,
  ): Promise<Recorded<K> | undefined> {
    const found = this.judge(draft, typedBy);
    if (!found.ok) return found;
    const entry = this.entryOf(draft, typedBy, await this.ports.outbox.reserve());
    const signature = await sign(entry);
    if (signature === undefined) return undefined;
    const saved = await this.ports.outbox.save(() => this.toSave(entry, draft.kind, typedBy, signature), entry.device.seq);
    await this.saved();
    return { ok: true, id: saved.id, outcome: found.outcome };
  }

  /** Entries just as they are sent, for many that are decided on line at once and stand elsewhere until then, in a sheet say: this device keeps none of them. */
  async fixed(drafts: readonly NewEntry[], typedBy: string): Promise<SentEnvelope[]> {
    const fixed: SentEnvelope[] = [];
    for (const draft of drafts) fixed.push(this.entryOf(draft, typedBy, await this.ports.outbox.reserve()));
    return fixed;
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
    const end = this.fetching.begin();
    await this.reread();
    await this.fetch().finally(end);
    await this.reread();
  }

  private async fetch(): Promise<void> {
    const { day } = this;
    await this.sender.wake();
    const { clock, night, outbox, kept } = this.ports;
    const before = clock.now();
    const { held } = this;
    const ofDay = held?.day === day ? held : null;
    const reply = await night(this.site.id, day, ofDay);
    this.connected = reply !== undefined;
    // what another answer took the place of meanwhile does not hold any more
    const still = this.held === held ? ofDay : null;
    const now = reply?.changed === false ? still && { ...still, asOf: reply.asOf } : reply && withChanges(ofDay, reply);
    if (reply && now) {
      this.fetching.answered();
      const clockErrorMs = measuredError(this.held?.clockErrorMs ?? null, before, clock.now(), now.asOf);
      const fresh = { ...now, organisation: this.site.organisation, clockErrorMs };
      if (reply.changed) this.take(fresh);
      else this.held = fresh;
      await kept.put(nightKey(this.site.id), fresh);
      await outbox.shown(new Map(fresh.sizes.map((s) => [s.book, s.size])));
      await outbox.prune(new Date(this.now().getTime() - keptMs).toISOString());
    }
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

  private take(night: KeptNight): void {
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
      loading: this.fetching.isLoading(this.held?.asOf ?? null, this.now()),
      pending: pendingOf(entries),
      refused: entries.filter((e) => e.fate.as === 'refused' && !e.fate.archived),
      recent: [...entries].reverse(),
      verdicts: this.optimistic.verdicts,
      needsSignOn: this.sender.state.needsSignOn,
      damage,
      clockErrorMs: this.held?.clockErrorMs ?? null,
      leftOut: this.held?.leftOut ?? 0,
      sizes: this.held?.sizes ?? [],
    };
  }

  private entryOf<K extends KindName>(draft: NewEntryOf<K>, typedBy: string, seq: number): SentEnvelope {
    const { kind, payload, words, corrects, at, precision, doneBy } = draft;
    const now = this.ports.clock.now();
    const zone = isZone(this.site.zone) ? this.site.zone : 'UTC';
    return newEnvelope(
      {
        id: this.ports.ids.entry(now),
        kind,
        version: kindNamed(kind).version,
        payload,
        at: onTheWall((at ?? now).toISOString(), zone),
        precision,
        clock: at !== undefined && precision !== 'about' ? 'wall' : undefined,
        doneBy: doneBy === undefined ? typedBy : doneBy,
        device: this.deviceOf(seq),
        after: comesAfter({ payload, corrects }, this.optimistic, pendingOf(this.content.entries)),
        corrects,
        words,
      },
      () => this.ports.ids.salt(),
    );
  }

  private async keep<K extends KindName>(draft: NewEntryOf<K>, typedBy: string): Promise<string> {
    const entry = this.entryOf(draft, typedBy, 0);
    const saved = await this.ports.outbox.save((seq) => this.toSave({ ...entry, device: this.deviceOf(seq) }, draft.kind, typedBy, null));
    await this.saved();
    return saved.id;
  }

  private toSave(entry: SentEnvelope, kind: KindName, typedBy: string, signature: string | null): EntryToSave {
    const bookType = kindNamed(kind).book === 'organisation' ? 'organisation' : 'site';
    const book = bookType === 'organisation' ? this.site.organisation : this.site.id;
    return { id: entry.id, book, bookType, entry: { ...entry }, typedBy, savedAt: this.now().toISOString(), signature };
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
