import { afterAll, afterEach, beforeAll, expect, it, jest } from '@jest/globals';
import { TraceService } from '../../apps/api/src/modules/trace/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { at, Bakehouse } from '../support/bakehouse.js';

let t: TestApp;
let b: Bakehouse;
beforeAll(async () => {
  t = await startTestApp();
  b = await Bakehouse.found(t);
});
afterEach(() => {
  jest.restoreAllMocks();
});
afterAll(() => t.close());

/** Nobody's trace goes on before this many have begun: until then, nothing was there to be found when they asked for the case. */
function together(many: number): void {
  const traces = t.app.get(TraceService);
  const scope = traces.scope.bind(traces);
  let begun = 0;
  let goOn = (): void => undefined;
  const all = new Promise<void>((resolve) => {
    goOn = resolve;
  });
  jest.spyOn(traces, 'scope').mockImplementation(async (...asked) => {
    begun += 1;
    if (begun >= many) goOn();
    await all;
    return scope(...asked);
  });
}

it('opens one case where two people open it at once under one id, and gives both of them the case', async () => {
  const lot = await b.delivered('almond', at('00:01'));
  const asked = { id: b.newId(), suspect: [lot], hazard: 'allergen', hazardName: 'peanut', practice: false, said: 'the mill rang' };
  const open = () => b.lead.caller.post('/recalls', asked);
  together(2);
  const answers = await Promise.all([open(), open()]);
  expect(answers.map((a) => a.status)).toEqual([200, 200]);
  const [first, second] = answers.map((a) => a.body);
  expect(second).toMatchObject({ id: asked.id, openedAt: first.openedAt, scopeHash: first.scopeHash });
});
