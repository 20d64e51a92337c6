import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { request, Server } from 'node:https';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { TLSSocket } from 'node:tls';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { followTls, readTls } from '../../apps/api/src/platform/http/index.js';
import { startTestApp, type TestApp } from '../support/app.js';
import { House } from '../support/people.js';

const folder = mkdtempSync(path.join(tmpdir(), 'tls-'));
const at = (name: string): string => path.join(folder, name);
/** A self-signed certificate and its key, made by openssl. */
function certificate(name: string): void {
  const words = [
    'req',
    '-x509',
    '-newkey',
    'ec',
    '-pkeyopt',
    'ec_paramgen_curve:prime256v1',
    '-nodes',
    '-days',
    '2',
    '-subj',
    `/CN=${name}`,
  ];
  execFileSync('openssl', [...words, '-keyout', at(`${name}.key`), '-out', at(`${name}.crt`)], { stdio: 'ignore' });
}
const files = (cert?: string, key?: string) => ({ TLS_CERT_FILE: cert && at(cert), TLS_KEY_FILE: key && at(key) });

beforeAll(() => {
  certificate('first');
  certificate('second');
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('the certificate and the key of the settings', () => {
  it('are none where none are set, and read where they fit', async () => {
    expect(await readTls(files())).toBeUndefined();
    expect((await readTls(files('first.crt', 'first.key')))?.cert).toMatch(/^-----BEGIN CERTIFICATE-----/);
  });

  it.each([
    [files('first.crt'), /^Only TLS_CERT_FILE is set/],
    [files(undefined, 'first.key'), /^Only TLS_KEY_FILE is set/],
    [files('none.crt', 'first.key'), /none\.crt cannot be read: .*TLS needs it/],
    [files('first.crt', 'second.key'), /^The key in .*second\.key is not that of the certificate in .*first\.crt\.$/],
    [files('first.key', 'first.key'), /cannot be used/],
  ])('are refused with a sentence: %j', async (given, says) => {
    await expect(readTls(given)).rejects.toThrow(says);
  });
});

describe('the service with a certificate', () => {
  let t: TestApp;
  let house: House;
  let port: string;
  beforeAll(async () => {
    t = await startTestApp({ env: { TLS_CERT_FILE: at('first.crt'), TLS_KEY_FILE: at('first.key') } });
    house = await House.found({ ...t, server: (await startPlain(t)).server });
    await t.app.listen(0, '127.0.0.1');
    port = new URL(await t.app.getUrl()).port;
  });
  afterAll(async () => {
    await plain?.app.close();
    await t.close();
  });
  /** A second application on the same database without TLS, to make a house by. */
  let plain: TestApp | undefined;
  const startPlain = async ({ database }: TestApp): Promise<TestApp> => (plain = await startTestApp({ database }));

  const ask = (method: string, where: string, body?: unknown) =>
    new Promise<{ status?: number; headers: Record<string, string | string[] | undefined>; name: string }>((resolve, reject) => {
      const options = { method, ca: readFileSync(at('first.crt')), rejectUnauthorized: false, agent: false };
      const asked = request(
        `https://127.0.0.1:${port}${where}`,
        { ...options, headers: { 'content-type': 'application/json' } },
        (response) => {
          const { subject } = (response.socket as TLSSocket).getPeerCertificate(); // https has no other sockets
          response
            .resume()
            .once('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, name: String(subject.CN) }));
        },
      );
      asked.once('error', reject).end(body === undefined ? undefined : JSON.stringify(body));
    });

  it('speaks TLS alone, asks browsers to stay with it, and sets cookies for it alone', async () => {
    const { status, headers, name } = await ask('GET', '/api/v1/health');
    expect([status, name]).toEqual([200, 'first']);
    expect(headers['strict-transport-security']).toMatch(/max-age=\d{8}/);
    const { person, pin } = house.administrator;
    const signedOn = await ask('POST', '/api/v1/sign-on', { organisation: house.organisation, person, pin });
    expect(signedOn.status).toBe(200);
    expect(String(signedOn.headers['set-cookie'])).toMatch(/HttpOnly; Secure; SameSite=Strict/);
    await expect(fetch(`http://127.0.0.1:${port}/api/v1/health`)).rejects.toThrow();
  });

  it('takes a renewed certificate over without a new start, and goes on with the old one where the new one does not fit', async () => {
    const said: string[] = [];
    let heard = (): void => undefined;
    const server: unknown = t.app.getHttpServer();
    if (!(server instanceof Server)) throw new Error('it does not speak TLS');
    const take = (tls: object): void => {
      server.setSecureContext(tls);
      heard();
    };
    const one = certificateFiles();
    const end = followTls(
      take,
      one,
      (line) => {
        said.push(line);
        heard();
      },
      20,
    );
    const next = (): Promise<void> =>
      new Promise((resolve) => {
        heard = resolve;
      });
    let wait = next();
    writeFileSync(one.TLS_KEY_FILE, readFileSync(at('second.key')));
    await wait;
    expect(said).toEqual([expect.stringMatching(/^The renewed certificate is not taken over: The key in/)]);
    expect((await ask('GET', '/api/v1/health')).name).toBe('first');
    wait = next();
    writeFileSync(one.TLS_CERT_FILE, readFileSync(at('second.crt')));
    await wait;
    end();
    expect((await ask('GET', '/api/v1/health')).name).toBe('second');
  });

  it('says how many requests are left where they are limited', async () => {
    const { headers } = await ask('GET', `/api/v1/counter/${house.site}`);
    expect([headers['ratelimit-limit'], Number(headers['ratelimit-remaining']), Number(headers['ratelimit-reset']) <= 60]).toEqual([
      '300',
      299,
      true,
    ]);
  });

  function certificateFiles() {
    writeFileSync(at('now.crt'), readFileSync(at('first.crt')));
    writeFileSync(at('now.key'), readFileSync(at('first.key')));
    return { TLS_CERT_FILE: at('now.crt'), TLS_KEY_FILE: at('now.key') };
  }
});
