import { aiEntries, fitsPattern, type AiEntry, type CharacterSet } from './ai-table.js';
import { rules, uncheckedRules, type RuleName } from './rules.js';

/** An application identifier and its data, as they stand. */
export interface Element {
  readonly ai: string;
  readonly value: string;
}

export type ProblemRule = RuleName | 'form' | 'unknown-ai' | 'length' | 'charset' | 'excluded' | 'required' | 'repeated' | 'link';

/** A broken rule: which one, by which element (its place in the list, where there is one), and a sentence. */
export interface ElementProblem {
  readonly rule: ProblemRule;
  readonly ai: string | null;
  readonly index: number | null;
  readonly says: string;
}

const sets: Record<CharacterSet, RegExp> = {
  N: /^\d*$/, // digits
  X: /^[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]*$/, // GS1 AI encodable character set 82
  Y: /^[#\-/0-9A-Z]*$/, // set 39
  Z: /^[-_=0-9A-Za-z]*$/, // base64url
};
const setNames: Record<CharacterSet, string> = {
  N: 'digits',
  X: 'the 82 characters of the GS1 set',
  Y: 'the 39 characters of the GS1 set',
  Z: 'the characters of base64url',
};

/** Checks one element against its own rules: known AI, length, characters, check digit, dates. At most one problem for each part of its data. */
export function problemsOf({ ai, value }: Element, index: number, asOfYear: number | undefined): ElementProblem[] {
  const entry = aiEntries.get(ai);
  const problem = (rule: ProblemRule, says: string): ElementProblem => ({ rule, ai, index, says });
  if (entry === undefined) return [problem('unknown-ai', `(${ai}) is no application identifier`)];
  if (value.length < entry.minLength || value.length > entry.maxLength) {
    const wanted = entry.minLength === entry.maxLength ? `${entry.minLength}` : `${entry.minLength} to ${entry.maxLength}`;
    return [problem('length', `(${ai}) ${entry.title} has ${wanted} characters, not ${value.length}`)];
  }
  const problems: ElementProblem[] = [];
  for (const { part, component } of partsOf(entry, value)) {
    if (part.length < component.min) problems.push(problem('length', `(${ai}) ${entry.title}: "${part}" is cut short`));
    else if (!sets[component.set].test(part))
      problems.push(problem('charset', `(${ai}) ${entry.title}: "${part}" has more than ${setNames[component.set]}`));
    else {
      const broken = component.rules.map((name) => rules[name]?.(part, asOfYear)).find((found) => found !== undefined);
      if (broken !== undefined) problems.push(problem(broken.rule, `(${ai}) ${entry.title}: "${part}": ${broken.says}`));
    }
  }
  return problems;
}

/** The data cut into the components of its specification; optional ones are left out once nothing remains. */
export function partsOf(entry: AiEntry, value: string) {
  let rest = value;
  return entry.components.flatMap((component) => {
    if (component.optional && rest === '') return [];
    const part = rest.slice(0, component.max);
    rest = rest.slice(component.max);
    return [{ part, component }];
  });
}

/** Rules of the dictionary that these elements fall under and that are not checked here. */
export function uncheckedIn(elements: readonly Element[]): string[] {
  const named = elements.flatMap(({ ai }) => aiEntries.get(ai)?.components.flatMap(({ rules: names }) => names) ?? []);
  return uncheckedRules.filter((name) => named.includes(name));
}

/**
 * Checks elements against the rules between them: the same AI twice with other data, AIs that exclude one another, AIs that need another beside them.
 * The last is for all codes on one item together: leave it out where other codes stand beside this one.
 */
export function problemsBetween(elements: readonly Element[], { codesBeside }: { readonly codesBeside: boolean }): ElementProblem[] {
  const present = [...new Set(elements.map(({ ai }) => ai))];
  const has = (pattern: string, but: string) => present.some((ai) => ai !== but && fitsPattern(ai, pattern));
  return elements.flatMap(({ ai, value }, index): ElementProblem[] => {
    const first = elements.findIndex((element) => element.ai === ai);
    if (first < index) {
      return elements[first]?.value === value ? [] : [{ rule: 'repeated', ai, index, says: `(${ai}) is given twice with different data` }];
    }
    const entry = aiEntries.get(ai);
    const clashes = entry?.excludes.filter((pattern) => has(pattern, ai)) ?? [];
    const unmet = codesBeside
      ? []
      : (entry?.requires.filter((group) => !group.some((all) => all.every((pattern) => has(pattern, ai)))) ?? []);
    return [
      ...clashes.map((pattern): ElementProblem => ({ rule: 'excluded', ai, index, says: `(${ai}) must not stand beside (${pattern})` })),
      ...unmet.map((group): ElementProblem => ({
        rule: 'required',
        ai,
        index,
        says: `(${ai}) needs ${group.map(together).join(' or ')} beside it`,
      })),
    ];
  });
}

const together = (all: readonly string[]): string => all.map((ai) => `(${ai})`).join(' with ');
