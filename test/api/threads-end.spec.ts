import { subscribe, unsubscribe } from 'node:diagnostics_channel';
import { Worker } from 'node:worker_threads';
import { expect, it } from '@jest/globals';
import request from 'supertest';
import { startTestApp } from '../support/app.js';
import { House } from '../support/people.js';
import { fileFrom } from '../support/read-papers.js';

const begun: Worker[] = [];
const note = (message: unknown): void => {
  if (typeof message === 'object' && message !== null && 'worker' in message && message.worker instanceof Worker)
    begun.push(message.worker);
};

it('a service that ends leaves no thread behind: neither of the sums nor of the papers', async () => {
  subscribe('worker_threads', note);
  const t = await startTestApp();
  const house = await House.found(t);
  const manager = await house.signedOn('Ma Nager', ['manager']);
  const { body: sums } = await request(t.server).get('/api/v1/calculate').expect(200);
  await request(t.server).post(`/api/v1/calculate/${sums[0].name}`).send(sums[0].example).expect(200);
  await fileFrom(manager, `/sites/${house.site}/inspection/pack.pdf`);
  unsubscribe('worker_threads', note);
  expect(begun.filter((worker) => worker.threadId > 0).length).toBe(2);
  await t.close();
  expect(begun.filter((worker) => worker.threadId > 0)).toEqual([]);
});
