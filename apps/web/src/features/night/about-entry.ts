import { quantityText } from '@bakehouse/kernel';
import { phrase } from '@bakehouse/records';
import { nameOf, type Look } from '@bakehouse/views';
import type { SavedEntry } from '@bakehouse/offline';
import { readPayload } from '../../shared/night/read-outcome';

const named = [
  ['make', 'make'],
  ['run', 'run'],
  ['load', 'load'],
  ['batch', 'batch'],
  ['lot', 'lot'],
] as const;
const sorts = ['make', 'run', 'load', 'batch', 'lot', 'place', 'instrument', 'delivery', 'site'] as const;
const loadSteps = ['turned', 'out', 'back-in', 'out-again'] as const;
const stages = ['rest', 'fold', 'prove', 'retard', 'cool', 'freeze', 'cook'] as const;

/** What an entry is about, in a few words: the name of its subject and its figure, where it has them. */
export function aboutEntry(look: Look, { entry }: SavedEntry): string {
  const p = readPayload(entry['payload']);
  const type = sorts.find((s) => s === p['subjectType']);
  const subject = typeof p['subject'] === 'string' && type ? nameOf(look, type, p['subject']) : null;
  const byField = named
    .map(([field, of]) => {
      const value = p[field];
      return typeof value === 'string' ? nameOf(look, of, value) : null;
    })
    .find((n) => n !== null);
  const own =
    typeof entry['id'] === 'string'
      ? (nameOf(look, 'make', entry['id']) ?? nameOf(look, 'load', entry['id']) ?? nameOf(look, 'batch', entry['id']))
      : null;
  const value = readPayload(p['value']);
  const figure =
    typeof value['figure'] === 'string' ? quantityText(value['figure'], typeof value['unit'] === 'string' ? value['unit'] : null) : '';
  const step = loadSteps.find((s) => s === p['step']);
  const stage = stages.find((s) => s === p['step']);
  const way = (['in', 'out', 'once'] as const).find((w) => w === p['way']);
  const passed = step ? phrase(`loadStep.${step}`) : stage && way ? `${phrase(`stage.${stage}`)} ${phrase(`way.${way}`)}` : '';
  return [subject ?? byField ?? own ?? '', passed, typeof p['parameter'] === 'string' ? p['parameter'] : '', figure]
    .filter((part) => part !== '')
    .join(', ');
}
