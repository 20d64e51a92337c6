import { createHash, createPrivateKey, sign } from 'node:crypto';
import { describe, expect, it } from '@jest/globals';
import {
  cosign,
  fromHex,
  judgeCheckpoint,
  publicKeyOf,
  readAddCheckpoint,
  readCosignature,
  readWitnessKey,
  toBase64,
  Tree,
  utf8,
  witnessKey,
  writeAddCheckpoint,
  leafHash,
} from '@bakehouse/ledger';
import { ed25519Vectors as rfc8032 } from '../support/ed25519-vectors.js';
import { keyOf, origin, otherSeed, sealOf, seed, treeOf } from '../support/bundles.js';

const witness = 'witness.example/w1';
const witnessSeed = fromHex(rfc8032[2]?.seed ?? '');
const key = witnessKey(witness, publicKeyOf(witnessSeed));
const text = 'example.com/behind-the-sofa\n20852163\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n';

describe('a cosignature (c2sp.org/tlog-cosignature)', () => {
  it('is the key id, the time and the Ed25519 signature that Node makes of the message that the specification writes out', () => {
    const seconds = 1679315147;
    const id = createHash('sha256')
      .update(Buffer.concat([Buffer.from(`${witness}\n`), Buffer.of(4), publicKeyOf(witnessSeed)]))
      .digest()
      .subarray(0, 4);
    const time = Buffer.alloc(8);
    time.writeBigUInt64BE(BigInt(seconds));
    const node = createPrivateKey({
      key: Buffer.concat([Buffer.from('302e020100300506032b657004220420', 'hex'), witnessSeed]),
      format: 'der',
      type: 'pkcs8',
    });
    const signature = sign(null, Buffer.from(`cosignature/v1\ntime 1679315147\n${text}`), node);
    const line = `— ${witness} ${Buffer.concat([id, time, signature]).toString('base64')}`;
    expect(cosign(text, witness, witnessSeed, seconds)).toBe(line);
    expect(readCosignature(line, text, key)).toEqual({ is: 'good', seconds });
  });

  it('is not taken over another text, with another time, by another key, nor where the key is a log’s', () => {
    const line = cosign(text, witness, witnessSeed, 5);
    expect(readCosignature(line, text.replace('163', '164'), key)).toEqual({ is: 'wrong' });
    const [dash, name, coded = ''] = line.split(' ');
    const later = Buffer.from(coded, 'base64');
    later[11] = 6;
    expect(readCosignature(`${dash} ${name} ${later.toString('base64')}`, text, key)).toEqual({ is: 'wrong' });
    expect(readCosignature(`${dash} ${name} ${Buffer.from(coded, 'base64').subarray(0, 70).toString('base64')}`, text, key)).toEqual({
      is: 'wrong',
    });
    expect(readCosignature(line, text, witnessKey(witness, publicKeyOf(seed)))).toEqual({ is: 'of-another' });
    expect(readCosignature(line, text, keyOf(witness, witnessSeed))).toEqual({ is: 'of-another' });
    expect(readWitnessKey(keyOf())).toBeUndefined();
  });
});

describe('what a witness is asked (c2sp.org/tlog-witness)', () => {
  /** The example of the specification, with one of its signature lines. */
  const example = [
    'old 20852014',
    'PlRNCrwHpqhGrupue0L7gxbjbMiKA9temvuZZDDpkaw=',
    'jrJZDmY8Y7SyJE0MWLpLozkIVMSMZcD5kvuKxPC3swk=',
    '5+pKlUdi2LeF/BcMHBn+Ku6yhPGNCswZZD1X/6QgPd8=',
    '/6WVhPs2CwSsb5rYBH5cjHV/wSmA79abXAwhXw3Kj/0=',
    '',
    'example.com/behind-the-sofa',
    '20852163',
    'CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=',
    '',
    '— example.com/behind-the-sofa Az3grlgtzPICa5OS8npVmf1Myq/5IZniMp+ZJurmRDeOoRDe4URYN7u5/Zhcyv2q1gGzGku9nTo+zyWE+xeMcTOAYQ8=',
    '',
  ].join('\n');

  it('the specification’s example is read, and written back as it was', () => {
    const read = readAddCheckpoint(example);
    expect(read).toMatchObject({ oldSize: 20852014, note: example.slice(example.indexOf('\n\n') + 2) });
    expect(read?.proof.map(toBase64)).toEqual(example.split('\n').slice(1, 5));
    expect(read && writeAddCheckpoint(read)).toBe(example);
  });

  it.each([
    ['no old size', example.replace('old 20852014\n', '')],
    ['a size with a zero before it', example.replace('old 2', 'old 02')],
    ['a hash that is too short', example.replace('PlRNCrwHpqhGrupue0L7gxbjbMiKA9temvuZZDDpkaw=', 'PlRN')],
    [
      '64 lines of a proof',
      example.replace('/6WVhPs2CwSsb5rYBH5cjHV/wSmA79abXAwhXw3Kj/0=\n', '/6WVhPs2CwSsb5rYBH5cjHV/wSmA79abXAwhXw3Kj/0=\n'.repeat(61)),
    ],
    ['no empty line', 'old 0\n'],
  ])('%s is refused', (_what, body) => {
    expect(readAddCheckpoint(body)).toBeUndefined();
  });
});

describe('a witness', () => {
  /** The same house with another history from the seventh record on. */
  const forked = (size: number): Tree =>
    Tree.over(Array.from({ length: size }, (_, i) => leafHash(utf8(i < 6 ? `same ${i}` : `other ${i}`))));
  const before = (size: number) => () => ({ size, root: treeOf(size).root() });
  const ask = (oldSize: number, size: number) => ({
    oldSize,
    note: sealOf(size),
    proof: oldSize === 0 ? [] : treeOf(size).consistencyProof(oldSize),
  });

  it.each([
    ['the first that it sees', ask(0, 8), () => undefined, 200],
    ['one that extends what it signed', ask(8, 21), before(8), 200],
    ['the same again', ask(8, 8), before(8), 200],
    ['a shorter one, though it is of the same history', ask(8, 8), before(21), 409],
    ['an old size beyond the seal', { ...ask(8, 8), oldSize: 9 }, before(9), 400],
    ['a proof from nothing', { ...ask(0, 8), proof: treeOf(8).consistencyProof(4) }, () => undefined, 422],
    ['a proof of another beginning', { ...ask(8, 21), proof: treeOf(21).consistencyProof(5) }, before(8), 422],
    [
      'another history that is longer',
      { oldSize: 8, note: sealOf(21, { root: forked(21).root() }), proof: forked(21).consistencyProof(8) },
      before(8),
      422,
    ],
    ['another history of the same length', { oldSize: 8, note: sealOf(8, { root: forked(8).root() }), proof: [] }, before(8), 409],
    ['a seal by another key', { ...ask(0, 8), note: sealOf(8, { with: otherSeed }) }, () => undefined, 403],
    ['another book', { ...ask(0, 8), note: sealOf(8, { who: 'ledger.example/book/another' }) }, () => undefined, 404],
    ['what is no seal', { ...ask(0, 8), note: 'hello\n\nyou\n' }, () => undefined, 400],
  ])('asked about %s', (_what, request, lastOf, status) => {
    expect(judgeCheckpoint(request, [keyOf()], lastOf).status).toBe(status);
  });

  it('keeps as evidence what two seals show, and not that somebody asked with an old size', () => {
    const longer = { oldSize: 8, note: sealOf(21, { root: forked(21).root() }), proof: forked(21).consistencyProof(8) };
    expect(judgeCheckpoint(longer, [keyOf()], before(8))).toEqual({ status: 422, evidence: true });
    const same = { oldSize: 8, note: sealOf(8, { root: forked(8).root() }), proof: [] };
    expect(judgeCheckpoint(same, [keyOf()], before(8))).toEqual({ status: 409, size: 8, evidence: true });
    expect(judgeCheckpoint(ask(5, 8), [keyOf()], before(8))).toEqual({ status: 409, size: 8, evidence: false });
    expect(judgeCheckpoint(ask(0, 8), [keyOf()], () => undefined)).toMatchObject({ status: 200, checkpoint: { origin, size: 8 } });
  });
});
