import { isZone } from '@bakehouse/kernel';
import type { CommandContext } from './command.js';
import { createOrganisation, firstPin } from './platform/access/index.js';
import { systemClock, type Clock } from './platform/clock/index.js';
import { connected, organisationNames, type Database } from './platform/database/index.js';

const usage = 'Say who you are: npm run records -- begin "the house" "its first site" Europe/London "who looks after people"';
const longest = 120;

/** A house of one's own without the demo: one site, and one person who lets in all others. Their PIN is printed, once. */
export async function beginCommand(
  database: Pick<Database, 'ownerUrl'>,
  { config, words, say }: Pick<CommandContext, 'config' | 'words' | 'say'>,
  clock: Clock = systemClock,
): Promise<number> {
  const [name, site, zone, person, ...more] = words.map((w) => w.trim());
  if (!name || !site || !zone || !person || more.length > 0 || [name, site, person].some((w) => w.length > longest)) {
    say(usage);
    return 2;
  }
  if (!isZone(zone) || !zone.includes('/')) {
    say(`"${zone}" is no time zone. Take one of the IANA list, such as Europe/London or America/Chicago.`);
    return 2;
  }
  return connected(database.ownerUrl, async (owner) => {
    if ((await organisationNames(owner)).includes(name)) {
      say(`There is a house called "${name}" already. Nothing was made.`);
      return 1;
    }
    const pin = firstPin();
    const { organisation } = await createOrganisation(
      owner,
      { name, sites: [{ name: site, zone }], administrator: { name: person, pin, seenByOthers: true } },
      clock,
    );
    say(`${name}, ${site}: begun. ${person} signs on with PIN ${pin}, shown only here, and then chooses their own.`);
    const { HOST, PORT } = config;
    say(`Its own address, for every browser and tablet of this house: http://${HOST}:${PORT}/?house=${organisation}`);
    say(
      'Then: npm start. Under Office, Set-up: what comes next, step by step. Until somebody is food-safety lead, nobody can put a plan in force.',
    );
    return 0;
  });
}
