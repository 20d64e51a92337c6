import { formulaDraftView, newFormulaDraft, type FormulaDraftView } from '@bakehouse/contracts';
import { derivedId } from '@bakehouse/kernel';
import {
  blankFormula,
  draftLines,
  formulaAllergens,
  formulaDraft,
  formulaDraftProblems,
  formulaFromStarter,
  formulaPercents,
  starterFormulas,
  type AllergenAnswer,
  type DraftLine,
} from '@bakehouse/records';
import { allergenSourcesOf, approvalState, shownAllergens, type Reference } from '@bakehouse/views';
import type * as z from 'zod';
import { ProblemException } from '../../platform/http/index.js';
import type { DraftType } from '../drafts/index.js';
import { newestVersions, specifications } from './formulas.query.js';

/** Drafts of formulas show their figures and their allergens as well. */
export const formulaDrafts: DraftType<z.infer<typeof newFormulaDraft>, Pick<FormulaDraftView, 'figures' | 'allergens'>> = {
  type: 'formula',
  controller: 'FormulaDraftsController',
  tag: 'formulas',
  path: 'formulas/drafts',
  permission: 'manage.formulas',
  summaries: {
    make: 'A draft from the newest version of a formula, or from nothing',
    show: 'A draft with what it lacks, its figures, and what it changes',
  },
  request: newFormulaDraft,
  view: formulaDraftView,
  nameOf: (content) => content['name'],

  async begin(client, organisation, { id, formula, name, type, starter }) {
    const given = starterFormulas.find((s) => s.key === starter);
    if (given) {
      const known = new Map((await specifications(client, organisation)).map((s) => [s.material, s])); // the newest of each
      return { subject: derivedId(id, 'formula'), basedOn: null, content: formulaFromStarter(given, [...known.values()]) };
    }
    if (formula === undefined)
      return { subject: derivedId(id, 'formula'), basedOn: null, content: blankFormula(name ?? '', type ?? 'dough') };
    const from = (await newestVersions(client, organisation)).find((v) => v.formula === formula);
    if (!from) throw new ProblemException({ problem: 'unknown-formula', field: 'formula' });
    return { subject: formula, basedOn: from.id, content: { name: name ?? from.name, type: type ?? from.type, content: from.content } };
  },

  async about(client, organisation, { subject, content }, now) {
    const reference = {
      versions: await newestVersions(client, organisation),
      specifications: await specifications(client, organisation),
    };
    const newest = reference.versions.find((v) => v.formula === subject);
    const lines = draftLines(content);
    const sum = (some: readonly DraftLine[]): number => some.reduce((mg, l) => mg + l.mg, 0);
    return {
      problems: formulaDraftProblems(subject, content, approvalState(reference), now),
      newest: newest && { ...newest, text: { name: newest.name, type: newest.type, content: newest.content } },
      more: {
        figures: { totalMg: sum(lines), flourMg: sum(lines.filter((l) => l.flour)), percents: formulaPercents({ lines }) },
        allergens: shownAllergens(allergensSoFar(subject, lines, reference, now)),
      },
    };
  },

  toSign: (subject, number, text) => {
    const { name, type, content } = formulaDraft.parse(text);
    return { kind: 'formula-approved', payload: { formula: subject, number, name, type, content } };
  },
};

/** A line whose material nobody chose yet makes the answer "not known". */
function allergensSoFar(formula: string, lines: readonly DraftLine[], reference: Reference, now: string): AllergenAnswer {
  const chosen = lines.filter((l) => l.known);
  const content = { ...blankFormula('', 'dough').content, lines: chosen, makes: formula };
  const answer = formulaAllergens(content, allergenSourcesOf(reference, now, { formula, content }));
  const open = lines.filter((l) => !l.known).map((l) => (l.name === '' ? 'a line without a material' : l.name));
  return { ...answer, notKnown: [...answer.notKnown, ...open], checkedSince: open.length === 0 ? answer.checkedSince : null };
}
