import type { SentEnvelope } from '@bakehouse/kernel';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { SignaturesService } from '../modules/people/index.js';
import { Sessions, type SessionContext } from '../platform/access/index.js';
import { readToken } from '../platform/access/tokens.js';
import type { Clock } from '../platform/clock/index.js';
import { Books, LedgerService, type BookRef, type Result } from '../platform/ledger/index.js';
import { people, type PersonKey } from './data/people.js';
import type { Door } from './player.js';
import type { Where } from './story/story.js';

interface Open {
  readonly session: SessionContext;
  usedMs: number;
  readonly openedMs: number;
}
/** Before a session ends for want of a touch, or for its age. */
const staleMs = 20 * 60_000;
const oldMs = 10 * 3_600_000;

/** The door from inside: people sign on and sign with their PINs through the services that the routes use. */
export class DoorHere implements Door {
  private readonly sessions: Sessions;
  private readonly ledger: LedgerService;
  private readonly signatures: SignaturesService;
  private readonly books: Books;
  private readonly open = new Map<PersonKey, Open>();

  constructor(
    app: NestFastifyApplication,
    private readonly clock: Clock,
    private readonly organisation: string,
    private readonly person: Readonly<Record<PersonKey, string>>,
    private readonly sites: Readonly<Record<'bakehouse' | 'shop', string>>,
  ) {
    const get = { strict: false } as const;
    this.sessions = app.get(Sessions, get);
    this.ledger = app.get(LedgerService, get);
    this.signatures = app.get(SignaturesService, get);
    this.books = app.get(Books, get);
  }

  async sign(by: PersonKey, entry: SentEnvelope): Promise<string> {
    return (await this.signatures.issue(await this.sessionOf(by), people[by].pin, entry, '127.0.0.1')).signature;
  }

  async send(by: PersonKey, where: Where, entries: readonly SentEnvelope[]): Promise<readonly Result[]> {
    const session = await this.sessionOf(by);
    return this.ledger.writer.record(await this.book(where), session.askerAt(where === 'organisation' ? null : this.sites[where]), entries);
  }

  private book(where: Where): Promise<BookRef> {
    return where === 'organisation' ? this.books.organisation(this.organisation) : this.books.site(this.organisation, this.sites[where]);
  }

  private async sessionOf(by: PersonKey): Promise<SessionContext> {
    const now = this.clock.now().getTime();
    const known = this.open.get(by);
    if (known && now - known.usedMs < staleMs && now - known.openedMs < oldMs) {
      known.usedMs = now;
      return known.session;
    }
    const { token } = await this.sessions.open({
      organisation: this.organisation,
      person: this.person[by],
      device: null,
      strength: 'pin',
      address: '',
    });
    const session = await this.sessions.current(readToken(token));
    this.open.set(by, { session, usedMs: now, openedMs: now });
    return session;
  }
}
