import { localDay } from '@bakehouse/kernel';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { createOrganisation, Devices, Pins, type CreatedOrganisation } from '../platform/access/index.js';
import { SettableClock, type Clock } from '../platform/clock/index.js';
import { inHouse, connected, Tenancy } from '../platform/database/index.js';
import { bakehouseName, unfinished } from './data/names.js';
import { people, type PersonKey } from './data/people.js';
import { analyse, rename } from './demo.query.js';
import { DoorHere } from './here.js';
import { play } from './player.js';
import { lastBakeDay } from './story/calendar.js';
import { beginsAt, tellStory, type WholeStory } from './story/tell-story.js';

export const zone = 'Europe/London';

export interface Founding {
  readonly ownerUrl: string;
  /** An application on the same database whose clock can be set. The caller that starts it closes it. */
  readonly startApp: (clock: Clock) => Promise<NestFastifyApplication>;
  readonly say: (line: string) => void;
  /** The story ends with the last bake day whose morning is over by then. */
  readonly now: Date;
  readonly weeks: number;
  /** Leave the last night out: somebody else writes it. */
  readonly withoutLastNight?: boolean;
}
export interface Founded {
  readonly created: CreatedOrganisation;
  readonly sites: Readonly<Record<'bakehouse' | 'shop', string>>;
  readonly whole: WholeStory;
  readonly entries: number;
  readonly name: string;
}

/**
 * Founds the demo's bakehouse and writes its weeks through the same door as anybody's, day by day as they happened. Its name says that it is not
 * finished until it is, so that a start that was cut off is known by the next.
 */
export async function found(f: Founding): Promise<Founded> {
  const lastDay = lastBakeDay(f.now, zone);
  const clock = new SettableClock(new Date(beginsAt(lastDay, zone, f.weeks).ms('07:30')));
  const sites = [
    { name: 'Mill Lane', zone, dayStarts: '00:00' },
    { name: 'Harbour Steps', zone, dayStarts: '00:00' },
  ] as const;
  const created = await connected(f.ownerUrl, (owner) =>
    createOrganisation(owner, { name: unfinished, sites, administrator: { name: people.owner.name, pin: people.owner.pin } }, clock),
  );
  const [bakehouse = '', shop = ''] = created.sites;
  const app = await f.startApp(clock);
  try {
    const devices = {
      bakehouse: await enrol(app, created, bakehouse, 'Table tablet'),
      shop: await enrol(app, created, shop, 'Shop tablet'),
    };
    const whole = tellStory({ sites: { bakehouse, shop }, devices, owner: created.administrator, zone, lastDay, weeks: f.weeks });
    const door = new DoorHere(app, clock, created.organisation, whole.story.person, { bakehouse, shop });
    f.say(`making a demo: ${bakehouseName}, ${f.weeks} ${f.weeks === 1 ? 'week' : 'weeks'} of nights up to ${lastDay}`);
    let entries = await play(whole.people, door, clock);
    await givePins(app, created, whole.story.person);
    entries += await play(f.withoutLastNight ? whole.history : [...whole.history, ...whole.lastNight], door, clock, progress(f, zone));
    await finish(f.ownerUrl, created);
    return { created, sites: { bakehouse, shop }, whole, entries, name: bakehouseName };
  } finally {
    await app.close();
  }
}

/** Says how far it is; and has the database look at what there is by now, whose plans were made while there was next to nothing. */
function progress({ say, ownerUrl }: Founding, zone: string): (recorded: number, atMs: number) => Promise<void> {
  let [next, look] = [0, 100];
  return async (recorded, atMs) => {
    if (recorded >= look) {
      look = recorded * 3;
      await connected(ownerUrl, analyse);
    }
    if (recorded < next) return;
    next = recorded + 500;
    say(`  ${localDay(new Date(atMs).toISOString(), zone)}: ${recorded} records`);
  };
}

async function enrol(app: NestFastifyApplication, created: CreatedOrganisation, site: string, name: string): Promise<string> {
  const devices = app.get(Devices, { strict: false });
  const { code } = await devices.newCode(created.organisation, site, created.administrator, { address: '' });
  return (await devices.enrol(created.organisation, code, name, '')).device.id;
}

/** As if they had chosen them. The owner's PIN was set when the business was founded. */
async function givePins(
  app: NestFastifyApplication,
  { organisation }: CreatedOrganisation,
  person: Readonly<Record<PersonKey, string>>,
): Promise<void> {
  const [pins, tenancy] = [app.get(Pins, { strict: false }), app.get(Tenancy, { strict: false })];
  for (const key of Object.keys(people) as PersonKey[]) {
    // its own keys
    if (key === 'owner') continue;
    const hash = await pins.hashFor(people[key].pin, { address: '' });
    await tenancy.inOrganisation(organisation, (client) => pins.store(client, organisation, person[key], hash, person[key]));
  }
}

async function finish(ownerUrl: string, { organisation, book }: CreatedOrganisation): Promise<void> {
  await connected(ownerUrl, async (owner) => {
    await inHouse(owner, organisation, () => rename(owner, organisation, book, bakehouseName));
    await analyse(owner);
  });
}
