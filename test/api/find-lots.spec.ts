import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { startTestApp, type TestApp } from '../support/app.js';
import { uuidv7 } from '../../apps/api/src/platform/ids/index.js';
import { at, Bakehouse, g } from '../support/bakehouse.js';
import { House, type Caller } from '../support/people.js';
import { Hand } from '../support/hand.js';

describe('a search for lots', () => {
  let t: TestApp;
  let b: Bakehouse;
  beforeAll(async () => {
    t = await startTestApp();
    b = await Bakehouse.found(t);
  });
  afterAll(() => t.close());

  const codes = async (words: string, limit = 50): Promise<(string | null)[]> => {
    const { body } = await b.lead.caller.get(`/lots?words=${encodeURIComponent(words)}&limit=${limit}`).expect(200);
    return body.map((l: { code: string | null }) => l.code);
  };

  it('finds a code in any letters: whole first, then what begins so or holds it, the newest first; no wildcards', async () => {
    for (const [code, time] of [
      ['Zx-9 old', '00:01'],
      ['zX-9', '00:02'],
      ['ZX-9 new', '00:03'],
      ['inside ZX-9', '00:04'],
      ['ZX_9%', '00:05'],
    ] as const)
      await b.delivered('almond', at(time), { code });
    expect(await codes('zx-9')).toEqual(['zX-9', 'inside ZX-9', 'ZX-9 new', 'Zx-9 old']);
    expect(await codes('zx-9', 1)).toEqual(['zX-9']);
    expect(await codes('x_9%')).toEqual(['ZX_9%']);
  });

  it('finds a code with or without its dashes and spaces, however it is written', async () => {
    await b.delivered('almond', at('00:10'), { code: 'QR 44–71 B' });
    for (const words of ['qr4471b', 'QR-4471-B', '44 71', '471b']) expect([words, await codes(words)]).toEqual([words, ['QR 44–71 B']]);
    expect(await codes('-')).toEqual([]);
  });

  it('finds what is inside a code that is older than thousands of others', async () => {
    await b.delivered('almond', at('00:20'), { code: 'OLD-5533-X' });
    const line = (i: number) => b.line('almond', b.newId(), { code: `N${i}` });
    for (let sent = 0; sent < 4_080; sent += 60) {
      const lines = Array.from({ length: 60 }, (_, i) => line(sent + i));
      await b.baker.record(
        'delivery-received',
        { supplier: null, noteNumber: null, photo: null, unattended: false, lines },
        { at: at('00:30') },
      );
    }
    expect(await codes('5533')).toEqual(['OLD-5533-X']);
  });

  it('finds a code that was given later, and anything in a name', async () => {
    const make = await b.begun('frangipane', at('01:00'));
    const { outcome } = await b.baker.record('weighed-in', { make, lines: [b.into('almond', '10')] }, { at: at('01:01') });
    const unknown = outcome.lines[0]?.lot ?? '';
    await b.baker.record('lot-identified', { lot: unknown, same: null, code: 'LATER-7', delivery: null }, { at: at('01:02') });
    expect(await codes('later-7')).toEqual(['LATER-7']);
    expect(await codes('ater-7')).toEqual(['LATER-7']);
    const { body } = await b.lead.caller.get('/lots?words=ANGIPA').expect(200);
    expect(body.map((l: { id: string }) => l.id)).toContain(make);
  });
});

describe('a search for lots by somebody of one site', () => {
  let t: TestApp;
  beforeAll(async () => {
    t = await startTestApp();
  });
  afterAll(() => t.close());

  it('is filled with that site’s lots, however many newer ones another site has', async () => {
    const zone = 'Europe/London';
    const house = await House.found(t, [
      { name: 'Mill Lane', zone },
      { name: 'Quay', zone },
    ]);
    const [here = '', there = ''] = house.created.sites;
    const material = '0190a6d0-7b3c-7000-8000-0000000000c1';
    const kept = { storage: 'ambient', lifeDays: null, lifeOpenedHours: null } as const;
    const content = { contains: [], mayContain: [], flour: false, animalOrigin: false, supplier: null, checked: null };
    const spec = { material, name: 'Rye', type: 'ingredient', countedIn: 'mass', densityMgPerMl: null, ...kept } as const;
    await house.decide({ kind: 'specification-accepted', payload: { ...spec, ...content }, at: at('00:00') });
    const everywhere = await house.signedOn('Oona Ware', ['baker']);
    const received = async (site: string, code: string, time: string): Promise<void> => {
      const lot = uuidv7(t.clock.now());
      const amount = { quantity: g('1000'), asWritten: null, bestBefore: null, useBy: null, temperature: null };
      const lines = [{ lot, material, code, codeState: 'on-it' as const, ...amount }];
      const payload = { supplier: null, noteNumber: null, photo: null, unattended: false, lines };
      await new Hand(house, everywhere, site).record('delivery-received', payload, { at: at(time) });
    };
    await received(here, 'RY-1', '01:00');
    for (let i = 2; i < 5; i += 1) await received(there, `RY-${i}`, `02:0${i}`);
    const one = await house.signedOn('Bo Baker', ['baker'], here);
    const found = async (by: Caller): Promise<(string | null)[]> => {
      const { body } = await by.get('/lots?words=ry&limit=2').expect(200);
      return body.map((l: { code: string | null }) => l.code);
    };
    expect(await found(one)).toEqual(['RY-1']);
    expect(await found(everywhere)).toEqual(['RY-4', 'RY-3']);
  });
});
