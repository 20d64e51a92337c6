import { createDecipheriv, createHmac, createPrivateKey, createPublicKey, diffieHellman, hkdfSync } from 'node:crypto';
import { gunzipSync } from 'node:zlib';
import { describe, expect, it } from '@jest/globals';
import { checkRecipients, newKeyPair, opened, sealed } from './sealed-file.js';

/** More than three parts of 64 KiB once compressed: hexadecimal digits of numbers that no compressor foretells. */
const long = Array.from({ length: 60_000 }, (_, i) => createHmac('sha256', 'text').update(String(i)).digest('hex').slice(0, 8)).join('\n');

async function* given(text: string): AsyncGenerator<string> {
  yield text;
}

async function file(text: string, ...recipients: string[]): Promise<Buffer> {
  const parts: Uint8Array[] = [];
  for await (const part of sealed(given(text), recipients)) parts.push(part);
  return Buffer.concat(parts);
}

/**
 * A file in the form of age, opened with Node's own cryptography by what the specification says and nothing else:
 * https://age-encryption.org/v1 (C2SP), "The X25519 recipient type", "Header MAC" and "Payload".
 */
function openedByTheSpecification(bytes: Buffer, secret: string): Buffer {
  const header = /^(age-encryption\.org\/v1\n[^]*?\n---) ([^\n]+)\n/.exec(bytes.toString('latin1'));
  const [whole = '', macked = '', mac] = header ?? [];
  const stanzas = [...macked.matchAll(/-> X25519 ([^\n]+)\n([^\n]+)\n/g)];
  const keys = stanzas.flatMap(
    ([, share = '', body = '']) => unwrapped(Buffer.from(share, 'base64'), Buffer.from(body, 'base64'), secret) ?? [],
  );
  const [fileKey] = keys;
  if (fileKey === undefined) throw new Error('no stanza is for this key');
  expect(
    createHmac('sha256', derived(fileKey, Buffer.alloc(0), 'header'))
      .update(macked)
      .digest('base64')
      .replace(/=+$/, ''),
  ).toBe(mac);
  const payload = bytes.subarray(whole.length);
  const key = derived(fileKey, payload.subarray(0, 16), 'payload');
  const plain: Buffer[] = [];
  for (let at = 16, n = 0; at < payload.length; at += 65_552, n += 1) {
    const nonce = Buffer.alloc(12);
    nonce.writeUInt32BE(n, 7);
    nonce.writeUInt8(at + 65_552 >= payload.length ? 1 : 0, 11);
    plain.push(chaCha(key, nonce, payload.subarray(at, at + 65_552)));
  }
  return Buffer.concat(plain);
}

function unwrapped(share: Buffer, body: Buffer, secret: string): Buffer | undefined {
  const raw = bech32(secret);
  const privateKey = createPrivateKey({
    key: Buffer.concat([Buffer.from('302e020100300506032b656e04220420', 'hex'), raw]),
    format: 'der',
    type: 'pkcs8',
  });
  const own = createPublicKey(privateKey).export({ format: 'der', type: 'spki' }).subarray(12);
  const publicKey = createPublicKey({
    key: Buffer.concat([Buffer.from('302a300506032b656e032100', 'hex'), share]),
    format: 'der',
    type: 'spki',
  });
  const shared = diffieHellman({ privateKey, publicKey });
  try {
    return chaCha(derived(shared, Buffer.concat([share, own]), 'age-encryption.org/v1/X25519'), Buffer.alloc(12), body);
  } catch {
    return undefined;
  }
}

const derived = (key: Buffer, salt: Buffer, info: string): Buffer => Buffer.from(hkdfSync('sha256', key, salt, info, 32));

function chaCha(key: Buffer, nonce: Buffer, bytes: Buffer): Buffer {
  const cipher = createDecipheriv('chacha20-poly1305', key, nonce, { authTagLength: 16 });
  cipher.setAuthTag(bytes.subarray(-16));
  return Buffer.concat([cipher.update(bytes.subarray(0, -16)), cipher.final()]);
}

/** BIP 173: five bits a letter after the last 1, the last six letters are a checksum. */
function bech32(text: string): Buffer {
  const letters = text.toLowerCase().slice(text.lastIndexOf('1') + 1, -6);
  const bits = [...letters].map((c) => 'qpzry9x8gf2tvdw0s3jn54khce6mua7l'.indexOf(c).toString(2).padStart(5, '0')).join('');
  return Buffer.from((bits.match(/.{8}/g) ?? []).map((byte) => Number.parseInt(byte, 2)));
}

describe('a sealed file', () => {
  it('is opened by each of its keys, by our reader and by the specification of age alone', async () => {
    const [first, second] = [await newKeyPair(), await newKeyPair()];
    for (const text of ['', 'ü\n', long]) {
      const bytes = await file(text, first.recipient, second.recipient);
      for (const { secret } of [first, second]) {
        expect(gunzipSync(openedByTheSpecification(bytes, secret)).toString('utf8') === text).toBe(true);
        const parts: Uint8Array[] = [];
        for await (const part of opened(chunked(bytes), secret)) parts.push(part);
        expect(Buffer.concat(parts).toString('utf8') === text).toBe(true);
      }
    }
  });

  it('is never the same twice, and no private key is taken for a public one', async () => {
    const { recipient, secret } = await newKeyPair();
    expect((await file('text', recipient)).equals(await file('text', recipient))).toBe(false);
    expect(() => checkRecipients([recipient])).not.toThrow();
    for (const wrong of [secret, recipient.replace(/.$/, (c) => (c === 'q' ? 'p' : 'q'))]) {
      expect(() => checkRecipients([wrong])).toThrow(/no public key/);
      expect(() => checkRecipients([wrong])).not.toThrow(wrong);
    }
  });
});

async function* chunked(bytes: Buffer): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += 10_007) yield bytes.subarray(at, at + 10_007);
}
