import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import request from 'supertest';
import { startTestApp, type TestApp } from '../support/app.js';
import { House } from '../support/people.js';
import { expectProblem } from '../support/problems.js';

let t: TestApp;
beforeAll(async () => {
  t = await startTestApp();
});
afterAll(() => t.close());

describe('PINs', () => {
  it('in sequence are refused, and so are weak ones; guesses are slowed and never a fault', async () => {
    const house = await House.found(t);
    const { person, pin } = await house.join('Gus Et', ['baker']);
    for (const weak of ['1234', '4321', '0000', '123456', '987654', '2026', '1984', '121212', '12345678']) {
      const response = await house.administrator.post(`/people/${person}/pin`, { pin: weak, currentPin: house.administrator.pin });
      expectProblem(response, weak);
      expect(response.body.type).toMatch(/pin-too-weak$/);
    }
    for (const odd of ['', '12', '123456789', '12a4', '１２３４', '٣٤٥٦', ' 1234', '1234\n', 1234, null, ['1', '2', '3', '4']]) {
      expectProblem(
        await house.administrator.post(`/people/${person}/pin`, { pin: odd as string, currentPin: house.administrator.pin }),
        odd,
      );
    }
    const tried: number[] = [];
    for (let n = 0; n < 12; n += 1) {
      const response = await request(t.server)
        .post('/api/v1/sign-on')
        .send({ organisation: house.organisation, person, pin: String(5000 + n) });
      expectProblem(response, n);
      tried.push(response.status);
    }
    expect([tried[0], tried.at(-1)]).toEqual([401, 429]);
    expectProblem(
      await request(t.server).post('/api/v1/sign-on').send({ organisation: house.organisation, person, pin }),
      'right, but too soon after',
    );
  });
});
