import { quantityText } from '@bakehouse/kernel';
import { loadStepType, phrase, stageStep, stageWay, subjectType } from '@bakehouse/records';
import { nameOf, type Lookup } from '@bakehouse/views';
import type { SavedEntry } from '@bakehouse/offline';
import { fieldsOf } from '../../shared/night/fields-of';

const named = [
  ['make', 'make'],
  ['run', 'run'],
  ['load', 'load'],
  ['batch', 'batch'],
  ['lot', 'lot'],
] as const;

/** What an entry is about, in a few words: the name of its subject and its figure, where it has them. */
export function aboutEntry(lookup: Lookup, { entry }: SavedEntry): string {
  const p = fieldsOf(entry['payload']);
  const type = subjectType.safeParse(p['subjectType']).data;
  const subject = typeof p['subject'] === 'string' && type ? nameOf(lookup, type, p['subject']) : null;
  const byField = named
    .map(([field, of]) => {
      const value = p[field];
      return typeof value === 'string' ? nameOf(lookup, of, value) : null;
    })
    .find((n) => n !== null);
  const own =
    typeof entry['id'] === 'string'
      ? (nameOf(lookup, 'make', entry['id']) ?? nameOf(lookup, 'load', entry['id']) ?? nameOf(lookup, 'batch', entry['id']))
      : null;
  const value = fieldsOf(p['value']);
  const figure =
    typeof value['figure'] === 'string' ? quantityText(value['figure'], typeof value['unit'] === 'string' ? value['unit'] : null) : '';
  const step = loadStepType.safeParse(p['step']).data;
  const stage = stageStep.safeParse(p['step']).data;
  const way = stageWay.safeParse(p['way']).data;
  const passed = step ? phrase(`loadStep.${step}`) : stage && way ? `${phrase(`stage.${stage}`)} ${phrase(`way.${way}`)}` : '';
  return [
    subject ?? byField ?? own ?? linesText(lookup, p['lines']),
    passed,
    typeof p['parameter'] === 'string' ? p['parameter'] : '',
    figure,
  ]
    .filter((part) => part !== '')
    .join(', ');
}

/** The first lines by name, and how many more there are. */
function linesText(lookup: Lookup, lines: unknown): string {
  if (!Array.isArray(lines)) return '';
  const names = lines.flatMap((one) => {
    const line = fieldsOf(one);
    const lot = Array.isArray(line['lots']) ? String(line['lots'][0]) : typeof line['lot'] === 'string' ? line['lot'] : null;
    return lot === null ? [] : (nameOf(lookup, 'lot', lot) ?? []);
  });
  const all = [...new Set(names)];
  return all.length <= 2 ? all.join(' and ') : `${all.slice(0, 2).join(', ')} and ${all.length - 2} more`;
}
