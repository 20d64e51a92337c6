import { agendaFor } from './agenda.js';
import { tellHouse, tellPeople } from './base.js';
import { Day, morningEnds } from './calendar.js';
import type { Carried } from './carried.js';
import { tellDay, tellFirstDay } from './day.js';
import { Numbers } from './goods-in.js';
import { Stock } from './stock.js';
import { Story, type Planted, type StoryEntry, type World } from './story.js';

export interface WholeStory {
  /** Who is there: before anybody can sign. Then the house, and its days up to the last one's. */
  readonly people: readonly StoryEntry[];
  readonly history: readonly StoryEntry[];
  readonly lastNight: readonly StoryEntry[];
  readonly planted: ReadonlyMap<string, Planted>;
  readonly story: Story;
}

/** When a story of so many weeks begins: the day before its first day. */
export const beginsAt = (lastDay: string, zone: string, weeks: number): Day => new Day(lastDay, zone, 0).plus(-7 * weeks - 1);

/**
 * The whole story of the demo's bakehouse, day by day, up to the end of its last morning. Pure: the same world gives the same records.
 */
export function tellStory(world: World): WholeStory {
  const last = new Day(world.lastDay, world.zone, 0);
  const before = beginsAt(world.lastDay, world.zone, world.weeks);
  const story = new Story(world, before.ms('07:00'));
  tellPeople(story, before);
  const people = story.untold(before.ms('08:29'));
  tellHouse(story, before);
  story.tell(
    'access-given',
    {
      person: story.person.inspector,
      sites: [world.sites.bakehouse],
      from: before.date,
      until: null,
      expires: new Date(last.plus(60).ms('18:00')).toISOString(),
    },
    { at: before.ms('09:30'), by: 'owner', where: 'organisation' },
  );
  const carried: Carried = {
    leaven: '',
    oldDough: null,
    crumb: { lot: '', left: 4_000 },
    loaves: null,
    shelf: [],
    wash: null,
    whites: [],
    tooWarm: [],
  };
  const telling = { story, stock: new Stock(story), carried, numbers: new Numbers(), agenda: agendaFor(last) };
  for (let ago = 7 * world.weeks; ago >= 0; ago -= 1) (ago === 7 * world.weeks ? tellFirstDay : tellDay)(telling, last.plus(-ago));
  const all = story.untold(last.ms(morningEnds));
  const nightBegins = last.ms('00:00');
  return {
    people,
    history: all.filter((d) => d.typedMs < nightBegins).slice(people.length),
    lastNight: all.filter((d) => d.typedMs >= nightBegins),
    planted: story.planted,
    story,
  };
}
