import type { ClientBase } from 'pg';

export interface BareHouse {
  readonly organisation: string;
  readonly site: string;
}

/** An organisation and a site as the owner of the tables writes them, with nobody in it. */
export async function bareHouse(owner: ClientBase): Promise<BareHouse> {
  const house = { organisation: '0190a6d0-7b3c-70ff-8000-000000000001', site: '0190a6d0-7b3c-70fe-8000-000000000001' };
  await owner.query("INSERT INTO organisation (id, name, created_at) VALUES ($1, 'Bare', now())", [house.organisation]);
  await owner.query("INSERT INTO book (organisation, id, type, name, zone) VALUES ($1, $2, 'site', 'Bench', 'Europe/London')", [
    house.organisation,
    house.site,
  ]);
  return house;
}
