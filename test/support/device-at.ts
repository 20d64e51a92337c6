import { entryResults } from '@bakehouse/contracts';
import { Kept, nightAnswer, Outbox, systemIds, Tablet, type Door, type TabletPorts } from '@bakehouse/offline';
import { HandTimer, newStore } from './offline-device.js';
import type { Table } from './readable.js';

/** The tablet of a bakehouse's table as the pages open it, with its own store, and a network that the test takes away. */
export class DeviceAt {
  network = true;
  private constructor(private readonly b: Table) {}

  static async table(b: Table, day: string): Promise<{ readonly device: DeviceAt; readonly tablet: Tablet }> {
    const device = new DeviceAt(b);
    const database = await newStore()();
    const ports: TabletPorts = {
      outbox: new Outbox(database),
      kept: new Kept(database),
      door: device.door,
      night: device.night,
      clock: b.t.clock,
      ids: systemIds,
      timer: new HandTimer(),
      device: b.tablet.id,
    };
    const site = { id: b.site, organisation: b.house.organisation, name: 'Mill Lane', zone: 'Europe/London', dayStarts: '00:00' };
    return { device, tablet: await Tablet.open(ports, site, day) };
  }

  private readonly door: Door = {
    send: async (_to, entries) => {
      if (!this.network) return { as: 'unreachable' };
      const { body } = await this.b.baker.caller.post(`/sites/${this.b.site}/entries`, entries).expect(200);
      return { as: 'answered', answers: entryResults.parse(body) };
    },
  };

  private readonly night: TabletPorts['night'] = async (site, day, held) => {
    if (!this.network) return undefined;
    const since = held?.version ? `&since=${held.version}` : '';
    const { body } = await this.b.baker.caller.get(`/sites/${site}/night?day=${day}${since}`).expect(200);
    return { changed: true, value: nightAnswer.parse(body), tag: null };
  };
}
