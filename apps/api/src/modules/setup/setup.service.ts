import type { Setup } from '@bakehouse/contracts';
import type { Permission } from '@bakehouse/kernel';
import { formulaListOf, materialsOf, planOverviewOf, setupOf, type DraftInHand, type SetupFacts } from '@bakehouse/views';
import { Inject, Injectable } from '@nestjs/common';
import type { SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy, type Transaction } from '../../platform/database/index.js';
import { Books, type BookInfo } from '../../platform/ledger/index.js';
import { detailsOfSite, instrumentRows, partyRows, placeRows, specificationRows } from '../catalogue/index.js';
import { draftsOf, type DraftType } from '../drafts/index.js';
import { formulaDrafts, newestVersions, type NewestVersion } from '../formulas/index.js';
import { everybody } from '../people/index.js';
import { planDrafts, planVersions } from '../plans/index.js';
import { happenedAt, tabletsAt } from './setup.query.js';

/** What a house lacks until its first released batch: one answer, from the same rows as every list. */
@Injectable()
export class SetupService {
  constructor(
    private readonly tenancy: Tenancy,
    private readonly books: Books,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  async of(session: SessionContext, id: string): Promise<Setup> {
    const site = await this.books.site(session.organisation, id);
    const now = this.clock.now().toISOString();
    return setupOf(await this.tenancy.reading(session.organisation, (client) => factsOf(client, session, site, now)));
  }
}

async function factsOf(client: Transaction, session: SessionContext, site: BookInfo, now: string): Promise<SetupFacts> {
  const { organisation } = session;
  const { id, name, zone, dayStarts } = site;
  const versions = await newestVersions(client, organisation);
  const retired = new Set(versions.filter((v) => v.retired !== null).map((v) => v.formula));
  const parties = await partyRows(client, organisation);
  const plans = planOverviewOf(await planVersions(client, organisation), [{ site: id, name }], now);
  return {
    site: { id, name, zone, dayStarts },
    details: await detailsOfSite(client, site, now),
    people: await everybody(client, organisation, now),
    tablets: await tabletsAt(client, site),
    places: await placeRows(client, site),
    instruments: await instrumentRows(client, site),
    suppliers: parties.filter((p) => p.type === 'supplier' && p.stopped === null).map((p) => p.name ?? 'name withheld'),
    materials: materialsOf(await specificationRows(client, organisation), { formulas: versions, retired }, now),
    formulas: formulaListOf(versions),
    used: usedBy(versions.filter((v) => v.retired === null)),
    drafts: { formula: await inHand(client, session, formulaDrafts), plan: await inHand(client, session, planDrafts) },
    plan: plans.sites[0]?.plan?.name ?? null,
    happened: await happenedAt(client, site),
  };
}

const usedBy = (versions: readonly NewestVersion[]): ReadonlySet<string> =>
  new Set(
    versions.flatMap(({ content }) => [
      ...content.lines.map((l) => l.material),
      ...content.products.flatMap((p) => p.additions.map((a) => a.material)),
    ]),
  );

type AnyDraft = Pick<DraftType<{ readonly id: string }, object>, 'type' | 'nameOf'> & { readonly permission: Permission };

/** Drafts are for those who write them: to others they are not named. */
async function inHand(client: Transaction, session: SessionContext, type: AnyDraft): Promise<readonly DraftInHand[]> {
  if (!session.permissionsAt(null).has(type.permission)) return [];
  return (await draftsOf(client, session.organisation, type.type, false)).map(({ id, content }) => {
    const name = type.nameOf(content);
    return { id, name: typeof name === 'string' ? name : '' };
  });
}
