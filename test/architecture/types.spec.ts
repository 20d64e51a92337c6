import path from 'node:path';
import { beforeAll, describe, expect, it } from '@jest/globals';
import ts from 'typescript';

const web = path.resolve(import.meta.dirname, '../../apps/web');
const page = path.join(web, 'src', 'features', 'a-page-of-this-test.ts');

/** Every way of recording that is tried, by what is wrong with it. */
const tried = {
  'a right one': `act({ kind: 'reading-not-taken', payload: { subjectType: 'load', subject: 'x', point: 'y', answer: 'not-done' } })`,
  'a misspelt field': `act({ kind: 'reading-not-taken', payload: { subjectType: 'load', subject: 'x', point: 'y', anwser: 'not-done' } })`,
  'a missing field': `act({ kind: 'reading-not-taken', payload: { subjectType: 'load', subject: 'x', point: 'y' } })`,
  'a value that is none': `act({ kind: 'reading-not-taken', payload: { subjectType: 'load', subject: 'x', point: 'y', answer: 'missed' } })`,
  'a kind that is none': `act({ kind: 'reading-missed', payload: { subjectType: 'load', subject: 'x', point: 'y', answer: 'not-done' } })`,
  'the payload of another kind': `act({ kind: 'lot-emptied', payload: { subjectType: 'load', subject: 'x', point: 'y', answer: 'not-done' } })`,
  'a wrong one before it': `act({ kind: 'person-left', payload: { person: 'x' } }, [{ kind: 'person-left', payload: { persons: 'x' } }])`,
  'an outcome of its kind': `act({ kind: 'lot-opened', payload: { station: 'a', material: 'b', lot: null, beside: false } }).then((done) => done?.outcome.newAllergens.contains)`,
  'an outcome of another kind': `act({ kind: 'lot-counted', payload: { lot: 'a', place: null, quantity: { figure: '1', unit: 'kg' } } }).then((done) => done?.outcome.newAllergens)`,
} as const;

/** What the compiler says of each line of a page that records like that. */
let said: Map<string, string[]>;
beforeAll(() => {
  const lines = Object.values(tried).map((call) => `void ${call};`);
  const text = [`import { useAct } from '../shared/use-act';`, `const { act } = useAct();`, ...lines].join('\n');
  const config = ts.getParsedCommandLineOfConfigFile(
    path.join(web, 'tsconfig.json'),
    { skipLibCheck: true },
    { ...ts.sys, onUnRecoverableConfigFileDiagnostic: () => undefined },
  );
  if (!config) throw new Error('the web app has no tsconfig.json');
  const host = ts.createCompilerHost(config.options);
  const program = ts.createProgram([page], config.options, {
    ...host,
    fileExists: (file) => file === page || host.fileExists(file),
    readFile: (file) => (file === page ? text : host.readFile(file)),
    getSourceFile: (file, language, ...rest) =>
      file === page ? ts.createSourceFile(file, text, language) : host.getSourceFile(file, language, ...rest),
  });
  const source = program.getSourceFile(page);
  if (!source) throw new Error('the page is not in the program');
  const names = Object.keys(tried);
  said = new Map(names.map((name) => [name, []]));
  for (const d of program.getSemanticDiagnostics(source)) {
    const line = source.getLineAndCharacterOfPosition(d.start ?? 0).line - 2;
    said.get(names[line] ?? '')?.push(ts.flattenDiagnosticMessageText(d.messageText, ' '));
  }
}); // it reads every library that the page does

describe('what a page may record', () => {
  it.each(['a right one', 'an outcome of its kind'])('compiles: %s', (name) => {
    expect(said.get(name)).toEqual([]);
  });

  it.each([
    ['a misspelt field', /anwser/],
    ['a missing field', /answer/],
    ['a value that is none', /missed/],
    ['a kind that is none', /reading-missed/],
    ['the payload of another kind', /subjectType/],
    ['a wrong one before it', /not assignable/],
    ['an outcome of another kind', /newAllergens/],
  ])('does not compile: %s', (name, why) => {
    expect(said.get(name)?.join('\n')).toMatch(why);
  });
});
