import type { Dice } from './dice.js';
import { replaced, somePath } from './mutate.js';

const deep = (levels: number): unknown => {
  let value: unknown = 1;
  for (let i = 0; i < levels; i += 1) value = i % 2 === 0 ? [value] : { a: value };
  return value;
};

/** Texts that break what reads them without looking: halves of characters, ends of text, patterns, other scripts, numbers and days out of range. */
export const nastyTexts: readonly string[] = [
  '',
  ' ',
  '\u0000',
  'a\u0000b',
  '\ud800',
  '\udc00\ud800',
  '🥐 עומר \u202eabc',
  'a\u0301\u0323\u200b\u200d\ufeff',
  '\uffff\u2028\u2029',
  '__proto__',
  'constructor',
  'toString',
  "Robert'); DROP TABLE entry;--",
  '%_\\%',
  '../../etc/passwd',
  '<script>alert(1)</script>',
  '${7*7}{{7*7}}',
  'null',
  'undefined',
  'NaN',
  'Infinity',
  '-0',
  '1e400',
  '0x10',
  '１２３',
  '9'.repeat(40),
  '0.'.padEnd(400, '0'),
  '-999999999.999999',
  '0000-00-00',
  '0000-01-01',
  '9999-12-31',
  '2026-02-30',
  '+275760-09-13',
  '0000-01-01T00:00:00Z',
  '9999-12-31T23:59:59-14:00',
  '2026-11-25T24:00:00Z',
  '2026-11-25T03:00:60Z',
  '00000000-0000-0000-0000-000000000000',
  'ffffffff-ffff-ffff-ffff-ffffffffffff',
  '01A2109E-0080-71AC-98B3-9859D1F7CD0B',
  'a'.repeat(6000),
  'é'.repeat(4000),
  'kg',
  'degC',
];

/** Values of every JSON type that are wrong for most places. */
const nastyValues: readonly unknown[] = [
  ...nastyTexts,
  null,
  true,
  -1,
  0,
  1.5,
  1e21,
  1e308,
  5e-324,
  -1e308,
  2 ** 31,
  2 ** 53,
  -(2 ** 53),
  2 ** 63,
  [],
  {},
  [[]],
  [null],
  { toString: 1 },
  { length: -1 },
  JSON.parse('{"__proto__":{"x":1}}'),
  { constructor: { prototype: { x: 1 } } },
  ['x', 'x'],
  Array(3000).fill(1),
  Object.fromEntries(Array.from({ length: 3000 }, (_, i) => [`k${i}`, i])),
  deep(60),
  deep(800),
];

/** A copy with something nasty at one place, a field too many, one taken away, or a list as a list of itself. */
export function mutated(value: unknown, dice: Dice): unknown {
  const path = somePath(value, (all) => dice.of(all));
  if (path.length === 0 && dice.chance(0.8)) return withOneMore(value, dice);
  return replaced(value, path, dice.chance(0.1) ? undefined : dice.of(nastyValues));
}

function withOneMore(value: unknown, dice: Dice): unknown {
  if (Array.isArray(value)) return dice.of([[...value, ...value], [...value, dice.of(nastyValues)], value.slice(1), [value]]);
  if (typeof value !== 'object' || value === null) return dice.of(nastyValues);
  return { ...value, [dice.of(['extra', 'toJSON', 'then', 'hasOwnProperty', '', 'a.b', '\u0000'])]: dice.of(nastyValues) };
}

/** The JSON of it, or that with something done to its bytes. */
export function bytesOf(value: unknown, dice: Dice): string | Buffer {
  const text = JSON.stringify(value) ?? '';
  if (dice.chance(0.9)) return text;
  return dice.of<() => string | Buffer>([
    () => '',
    () => text.slice(0, dice.below(text.length + 1)),
    () => text + text,
    () => `\ufeff${text}`,
    () => `${text}\u0000`,
    () => text.replaceAll('"', "'"),
    () => text.replace('{', '{"__proto__":{"x":1},'),
    () => text.replace('{', '{"id":1,"id":2,'),
    () => text.replace(/\d+/, '1e999'),
    () => text.replace(/"[^"]*"/, '"\\ud800"'),
    () => '['.repeat(20_000),
    () => '{"a":'.repeat(20_000),
    () => Buffer.concat([Buffer.from(text), Buffer.from([0xff, 0xfe])]),
    () => Buffer.from(text, 'utf16le'),
  ])();
}

/** A text as a part of an address: escaped, or as it must not stand there. */
export function inAddress(text: string, dice: Dice): string {
  if (dice.chance(0.05))
    return dice.of(['%', '%00', '%ff', '%E0%A4%A', '%ud800', '%ed%a0%80', '..%2f..%2f', '%2e%2e', '{}', '[]', '+', ';', '%25%30%30']);
  return /\p{Surrogate}/u.test(text) ? '%ED%A0%80' : encodeURIComponent(text);
}
