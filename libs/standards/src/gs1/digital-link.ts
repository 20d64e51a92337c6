import { aiEntries, type AiEntry } from './ai-table.js';
import type { Element, ElementProblem } from './elements.js';
import type { ReadElements } from './element-string.js';

export const defaultStem = 'https://id.gs1.org';

/** A Digital Link taken apart: the key, its qualifiers in their order, and the attributes of the query. */
export interface Link {
  readonly key: Element;
  readonly qualifiers: readonly Element[];
  readonly attributes: readonly Element[];
}
export type BuiltLink =
  { readonly ok: true; readonly uri: string; readonly link: Link } | { readonly ok: false; readonly problem: ElementProblem };

const unreserved = /[A-Za-z0-9\-._~]/;
const percent = (c: string): string => `%${c.charCodeAt(0).toString(16).toUpperCase().padStart(2, '0')}`;
const escaped = (text: string): string => [...text].map((c) => (unreserved.test(c) ? c : percent(c))).join('');
/** A % without two hexadecimal digits after it is itself: it is a character of the GS1 set. */
const unescaped = (text: string): string =>
  text.replace(/%([0-9A-Fa-f]{2})/g, (_all, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
const fault = (says: string, ai: string | null = null): ElementProblem => ({ rule: 'link', ai, index: null, says });

/** The stem that a link may begin with: http or https, a domain, perhaps a path, no query. */
export function isStem(text: string): boolean {
  return /^https?:\/\/[A-Za-z0-9\-.:[\]]+(?:\/[A-Za-z0-9\-._~]+)*\/?$/.test(text);
}

/** Each way to tell key, qualifiers and attributes apart, ways with more qualifiers first. GS1 Digital Link: URI Syntax; sequences from the dictionary. */
function waysOf(elements: readonly Element[], key: Element, entry: AiEntry): Link[] {
  const ways = (entry.linkQualifiers ?? []).map((sequence): Link => {
    const qualifiers = sequence.flatMap((ai) => elements.find((element) => element.ai === ai) ?? []);
    const attributes = elements.filter((element) => element !== key && !qualifiers.includes(element));
    return { key, qualifiers, attributes: [...attributes].sort((a, b) => (a.ai < b.ai ? -1 : 1)) };
  });
  return ways.sort((a, b) => b.qualifiers.length - a.qualifiers.length);
}

const misplaced = (link: Link): Element | undefined => link.attributes.find(({ ai }) => aiEntries.get(ai)?.linkAttribute !== true);

/** Builds a Digital Link URI: key, qualifiers in the standard's order, then attributes by AI. Refuses elements that no link can hold. */
export function digitalLink(elements: readonly Element[], stem: string): BuiltLink {
  const twice = elements.find(({ ai }, i) => elements.findIndex((other) => other.ai === ai) < i);
  if (twice !== undefined) return { ok: false, problem: fault(`(${twice.ai}) can stand in a link only once`, twice.ai) };
  const keys = [...aiEntries.values()].filter(({ linkQualifiers }) => linkQualifiers !== undefined);
  const links = keys.flatMap((entry) => elements.filter(({ ai }) => ai === entry.ai).flatMap((key) => waysOf(elements, key, entry)));
  const [first] = links;
  if (first === undefined) return { ok: false, problem: fault('a link needs a key such as (01) GTIN or (00) SSCC') };
  const link = links.find((way) => misplaced(way) === undefined);
  if (link === undefined) {
    const ai = misplaced(first)?.ai ?? null;
    return { ok: false, problem: fault(`(${ai}) can stand neither in the path nor in the query of a link with key (${first.key.ai})`, ai) };
  }
  const path = [link.key, ...link.qualifiers].map(({ ai, value }) => `/${ai}/${escaped(value)}`).join('');
  const query = link.attributes.map(({ ai, value }) => `${ai}=${escaped(value)}`).join('&');
  return { ok: true, uri: `${stem.replace(/\/$/, '')}${path}${query === '' ? '' : `?${query}`}`, link };
}

/** Key and qualifiers from the end of a path: the last primary key that known AIs lead back to. */
function readPath(path: string): Element[] | undefined {
  const segments = path.split('/').slice(1);
  const pairs: Element[] = [];
  for (let i = segments.length - 2; i >= 0; i -= 2) {
    const [ai = '', value = ''] = segments.slice(i, i + 2);
    const entry = aiEntries.get(ai);
    if (entry === undefined || value === '') return undefined;
    pairs.unshift({ ai, value: unescaped(value) });
    if (entry.linkQualifiers !== undefined) return pairs;
  }
  return undefined;
}

function inOrder(qualifiers: readonly string[], sequence: readonly string[]): boolean {
  const places = qualifiers.map((ai) => sequence.indexOf(ai));
  return places.every((place, i) => place >= 0 && place > (places[i - 1] ?? -1));
}

/** Reads a Digital Link URI, uncompressed, with AIs as numbers. Parameters that are not AIs are ignored; an unknown one made of digits is a problem. */
export function readDigitalLink(uri: string): ReadElements {
  const nothing = (says: string): ReadElements => ({ elements: [], problems: [fault(says)] });
  if (!/^[A-Za-z0-9\-._~:/?#[\]@!$&'()*+,;=%]*$/.test(uri)) return nothing('it has a character that no URI may have');
  const [, path, query = ''] = /^(?:https?|HTTPS?):\/\/[A-Za-z0-9\-.:[\]]+(\/[^?#]*)(?:\?([^#]*))?(?:#.*)?$/.exec(uri) ?? [];
  if (path === undefined) return nothing('it is no http or https address with a path');
  const inPath = readPath(path);
  const [key, ...qualifiers] = inPath ?? [];
  const sequences = aiEntries.get(key?.ai ?? '')?.linkQualifiers;
  if (key === undefined || sequences === undefined) return nothing('its path does not end in a GS1 key such as /01/ with its qualifiers');
  const given = qualifiers.map(({ ai }) => ai);
  if (!sequences.some((sequence) => inOrder(given, sequence))) {
    return nothing(`(${given.join('), (')}) cannot follow (${key.ai}) in that order`);
  }
  const inQuery = query.split('&').flatMap((pair): Element[] => {
    const [, ai, value] = /^(\d+)=(.*)$/.exec(pair) ?? [];
    return ai === undefined || value === undefined ? [] : [{ ai, value: unescaped(value.replaceAll('+', ' ')) }];
  });
  const all = [key, ...qualifiers, ...inQuery];
  const problems = inQuery.flatMap(({ ai }, i): ElementProblem[] => {
    const entry = aiEntries.get(ai);
    if (entry === undefined) return []; // the element's own check says that there is no such AI
    const index = 1 + qualifiers.length + i;
    if (all.findIndex((other) => other.ai === ai) < index) return [{ ...fault(`(${ai}) can stand in a link only once`, ai), index }];
    if (!entry.linkAttribute) return [{ ...fault(`(${ai}) cannot stand in the query of a link`, ai), index }];
    const belongs = sequences.some((sequence) => sequence.includes(ai) && given.every((q) => sequence.includes(q)));
    return belongs ? [{ ...fault(`(${ai}) belongs in the path of a link with key (${key.ai})`, ai), index }] : [];
  });
  return { elements: all, problems };
}
