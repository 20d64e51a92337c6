import { beforeAll, describe, expect, it } from '@jest/globals';
import { markAll, markUnprintable, typefaces } from './glyphs.js';

let has: ReadonlySet<number>;
beforeAll(async () => {
  has = (await typefaces()).any;
});
const shown = (text: string): string => markUnprintable(text, has).text;

describe('what the papers’ typefaces can show', () => {
  it.each([
    ['English', 'Pellow & Wick: 94.4 °C, ≥ 93, ½ – “quote” … ×'],
    ['French', 'Crème brûlée, œuf, naïf, Ÿ'],
    ['Polish', 'zażółć gęślą jaźń ZAŻÓŁĆ'],
    ['Turkish', 'İğne ışık ŞĞÜ'],
    ['Romanian', 'șuncă țară ăâî'],
    ['Vietnamese', 'bánh mì Thịt nướng ặ ỹ'],
    ['Hungarian', 'kovászos őű'],
    ['Greek', 'Ψωμί ολικής άλεσης ΰ Ώ ς'],
    ['Ukrainian', 'Їжа, ґанок, паляниця є'],
    ['Serbian', 'Хлеб љ њ ћ ђ џ'],
    ['a decomposed accent', 'cafe\u0301'],
  ])('prints %s as it is written', (_, text) => {
    expect(markUnprintable(text, has)).toEqual({ text: text.normalize('NFC'), marked: 0 });
  });

  it.each([
    ['Chinese', '面包', '◊◊'],
    ['Arabic among Latin', 'pide خبز ok', 'pide ◊◊◊ ok'],
    ['one emoji of many parts', 'Bo 👩🏽‍🍳!', 'Bo ◊!'],
    ['a flag', '🇬🇧', '◊'],
    ['a turn of the reading direction', 'ab\u202etxt', 'ab◊txt'],
    ['nothing that is seen', 'a\u200bb', 'a◊b'],
    ['a private sign', '\ue000', '◊'],
    ['a control character', 'a\u0007b', 'a◊b'],
  ])('marks %s', (_, text, marked) => expect(shown(text)).toBe(marked));

  it('keeps lines and turns a tab into a space', () => expect(shown('a\r\nb\tc\n')).toBe('a\nb c\n'));

  it('goes through whatever it is given, and counts', () => {
    const at = new Date(0);
    expect(markAll({ a: ['x', { b: '面' }], n: 3, at, none: null }, has)).toEqual({
      content: { a: ['x', { b: '◊' }], n: 3, at, none: null },
      marked: 1,
    });
  });
});
