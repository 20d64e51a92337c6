import { createPublicKey, sign, verify, createPrivateKey } from 'node:crypto';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';
import {
  checkpointText,
  fromBase64,
  fromHex,
  openNote,
  publicKeyOf,
  readCheckpoint,
  readVerifierKey,
  rootOf,
  leafHash,
  signNote,
  toBase64,
  toHex,
  utf8,
  verifierKey,
} from '@bakehouse/ledger';
import { ed25519Vectors as rfc8032 } from '../support/ed25519-vectors.js';

const seed = fromHex(rfc8032[0]?.seed ?? '');
const nodeKey = (hex: string) =>
  createPrivateKey({
    key: Buffer.concat([Buffer.from('302e020100300506032b657004220420', 'hex'), Buffer.from(hex, 'hex')]),
    format: 'der',
    type: 'pkcs8',
  });
const golden = (name: string) => readFileSync(path.join(import.meta.dirname, 'golden', name), 'utf8');

describe('signed notes (c2sp.org/signed-note)', () => {
  // The example of the specification's section on Ed25519 verifier keys.
  const exampleKey = 'example.com/foo+530d903a+AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k';
  const example =
    'This is an example message.\n\n— example.com/foo ' +
    'Uw2QOkn8srV1yJGh2VYRlL1Tnagv1YEq6TfXppzi2ONncAlTgK7Ztg1ERYNZXsYjOBH3mFXmRKuwHjG1Yu72IneyaQM=\n';

  it('the specification’s example opens with its key', () => {
    expect(openNote(example, exampleKey)).toEqual({ ok: true, text: 'This is an example message.\n' });
  });

  it('the specification’s verifier key is read and written back', () => {
    const key = readVerifierKey(exampleKey);
    expect(key && [key.name, toHex(key.id), toHex(key.publicKey)]).toEqual([
      'example.com/foo',
      '530d903a',
      'e932791ae6e7a840a46164c904786426d5e7821dd8b29a00d61cae72afdd4da4',
    ]);
    expect(key && verifierKey(key.name, key.publicKey)).toBe(exampleKey);
  });

  it('a key whose base64 holds a plus is read (a key of transparency-dev/formats’ tests)', () => {
    expect(readVerifierKey('TEST+7997405c+AQcC+FTVKf0jlTdHDY3rbevmnKxxPjigCXlVtGe6RIr6')?.name).toBe('TEST');
  });

  it.each([
    ['another text', example.replace('example message', 'example massage'), 'signature-wrong'],
    ['another key name', example.replace('— example.com/foo', '— example.com/bar'), 'not-signed-by-key'],
    ['another key id', example.replace('Uw2QOkn8', 'Uw3QOkn8'), 'not-signed-by-key'],
    ['another signature', example.replace('Uw2QOkn8', 'Uw2QOln8'), 'signature-wrong'],
    ['no blank line', example.replace('\n\n', '\n'), 'malformed-note'],
    ['no signature', 'This is an example message.\n\n', 'malformed-note'],
    ['a hyphen for the dash', example.replace('—', '-'), 'malformed-note'],
    ['no line feed at the end', example.slice(0, -1), 'malformed-note'],
    ['a carriage return', example.replace('message.', 'message.\r'), 'malformed-note'],
    ['something after the signature', example.replace('aQM=\n', 'aQM= x\n'), 'malformed-note'],
    ['a wrong second line of the same key', `${example}— example.com/foo Uw2QOgAA\n`, 'signature-wrong'],
  ])('refuses %s', (_what, note, why) => {
    expect(openNote(note, exampleKey)).toEqual({ ok: false, why });
  });

  it('passes over lines of keys it does not know, as the specification demands', () => {
    const witnessed = example.replace('\n—', '\n— elsewhere.example/w AAAAAAAA\n—');
    expect(openNote(witnessed, exampleKey)).toEqual({ ok: true, text: 'This is an example message.\n' });
  });

  it('no part of a verifier key can be changed or left out', () => {
    for (let i = 0; i < exampleKey.length; i += 1) {
      const changed = exampleKey.slice(0, i) + String.fromCharCode(exampleKey.charCodeAt(i) + 1) + exampleKey.slice(i + 1);
      expect([changed, readVerifierKey(changed)]).toEqual([changed, undefined]);
      expect(readVerifierKey(exampleKey.slice(0, i))).toBeUndefined();
      expect(readVerifierKey(exampleKey.slice(i + 1))).toBeUndefined();
    }
  });
});

describe('Ed25519', () => {
  it.each(rfc8032)(
    'RFC 8032 §7.1: public key and signature, the same as node:crypto makes ($message)',
    ({ seed: secret, key, message, signature }) => {
      expect(toHex(publicKeyOf(fromHex(secret)))).toBe(key);
      expect(sign(null, Buffer.from(message, 'hex'), nodeKey(secret)).toString('hex')).toBe(signature);
    },
  );

  it('a note’s signature is Ed25519 over the text with its last line feed, as node:crypto makes and checks it', () => {
    const text = 'one line\nanother\n';
    const note = signNote(text, 'ledger.example/site', seed);
    const line = note
      .slice(text.length + 1)
      .trimEnd()
      .split(' ');
    const raw = Buffer.from(line[2] ?? '', 'base64').subarray(4);
    expect(raw.equals(sign(null, Buffer.from(text), nodeKey(toHex(seed))))).toBe(true);
    expect(verify(null, Buffer.from(text), createPublicKey(nodeKey(toHex(seed))), raw)).toBe(true);
    expect(openNote(note, verifierKey('ledger.example/site', publicKeyOf(seed)))).toEqual({ ok: true, text });
  });

  it('a text may hold blank lines: the last one parts it from the signatures', () => {
    const text = 'one\n\n\ntwo\n';
    expect(openNote(signNote(text, 'k', seed), verifierKey('k', publicKeyOf(seed)))).toEqual({ ok: true, text });
  });

  it.each([
    ['no line feed at the end', 'one', 'k'],
    ['a tab', 'a\tb\n', 'k'],
    ['a space in the key name', 'one\n', 'a b'],
    ['a plus in the key name', 'one\n', 'a+b'],
    ['no key name', 'one\n', ''],
  ])('does not sign %s', (_what, text, name) => {
    expect(() => signNote(text, name, seed)).toThrow();
  });
});

describe('checkpoints (c2sp.org/tlog-checkpoint)', () => {
  const example = 'example.com/behind-the-sofa\n20852163\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n'; // the specification's example

  it('reads and writes the specification’s example', () => {
    const read = readCheckpoint(example);
    expect(read && [read.origin, read.size, toBase64(read.root), read.extensions]).toEqual([
      'example.com/behind-the-sofa',
      20852163,
      'CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=',
      [],
    ]);
    expect(read && checkpointText(read)).toBe(example);
  });

  it.each([
    ['a leading zero', example.replace('2085', '02085')],
    ['no size', example.replace('20852163\n', '')],
    ['a size that no double holds', example.replace('20852163', '9007199254740993')],
    ['a short root', example.replace('CsUY', '')],
    ['loose base64', example.replace('q2I=', 'q2J=')],
    ['an empty extension', `${example}\n`],
    ['no last line feed', example.slice(0, -1)],
    ['nothing', ''],
  ])('does not read %s', (_what, text) => {
    expect(readCheckpoint(text)).toBeUndefined();
  });

  it('a sealed checkpoint keeps its bytes for ever', () => {
    const leaves = ['a first entry', 'a second', 'a third'].map((entry) => leafHash(utf8(entry)));
    const text = checkpointText({
      origin: 'ledger.example/bakehouse',
      size: 3,
      root: rootOf(leaves),
      extensions: ['time 2026-03-02T14:02:00.000Z'],
    });
    expect(signNote(text, 'ledger.example/bakehouse', seed)).toBe(golden('checkpoint.txt'));
    expect(openNote(golden('checkpoint.txt'), golden('checkpoint-key.txt').trim())).toEqual({ ok: true, text });
  });

  it('base64 is that of RFC 4648 §10 and of Node, and only its one spelling is read', () => {
    for (const [plain, coded] of [
      ['', ''],
      ['f', 'Zg=='],
      ['fo', 'Zm8='],
      ['foo', 'Zm9v'],
      ['foob', 'Zm9vYg=='],
      ['fooba', 'Zm9vYmE='],
      ['foobar', 'Zm9vYmFy'],
    ] as const) {
      expect(toBase64(utf8(plain))).toBe(coded);
      expect(fromBase64(coded)).toEqual(utf8(plain));
    }
    for (const loose of ['Zg', 'Zg=', 'Zh==', 'Zm9v\n', 'Zm9-', '====', 'Z'])
      expect([loose, fromBase64(loose)]).toEqual([loose, undefined]);
  });
});
