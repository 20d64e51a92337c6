import type { FormulaDraftView, newFormulaDraft, ToSign } from '@bakehouse/contracts';
import { caution, derivedId, differences } from '@bakehouse/kernel';
import {
  blankFormula,
  draftLines,
  formulaAllergens,
  formulaDraft,
  formulaDraftProblems,
  formulaPercents,
  kinds,
  type AllergenAnswer,
  type DraftLine,
} from '@bakehouse/records';
import { Inject, Injectable } from '@nestjs/common';
import type * as z from 'zod';
import type { SessionContext } from '../../platform/access/index.js';
import { CLOCK, type Clock } from '../../platform/clock/index.js';
import { Tenancy } from '../../platform/database/index.js';
import { ProblemException } from '../../platform/http/index.js';
import { againstOf, draftAndOthers, DraftsService, headOf, othersOf, problemsShown, type DraftRow } from '../drafts/index.js';
import { shownAllergens } from './formula-view.js';
import { newestVersions, specifications } from './formulas.query.js';
import { allergenSourcesOf, stateOf, type Reference } from './reference.js';

const signedKind = kinds.find((k) => k.name === 'formula-approved');

/** Drafts of formulas: made, shown with what they lack, and turned into what is signed. */
@Injectable()
export class FormulaDraftsService {
  constructor(
    private readonly drafts: DraftsService,
    private readonly tenancy: Tenancy,
    @Inject(CLOCK) private readonly clock: Clock,
  ) {}

  /** From the newest version of a formula, or from nothing as a formula of its own. Twice under one id is one draft. */
  async make(session: SessionContext, { id, formula, name, type }: z.infer<typeof newFormulaDraft>): Promise<FormulaDraftView> {
    if (formula === undefined) {
      await this.drafts.make(session, 'formula', {
        id,
        subject: derivedId(id, 'formula'),
        basedOn: null,
        content: blankFormula(name ?? '', type ?? 'dough'),
      });
      return this.show(session, id);
    }
    const versions = await this.tenancy.reading(session.organisation, (client) => newestVersions(client, session.organisation));
    const from = versions.find((v) => v.formula === formula);
    if (!from) throw new ProblemException({ problem: 'unknown-formula', field: 'formula' });
    await this.drafts.make(session, 'formula', {
      id,
      subject: formula,
      basedOn: from.id,
      content: { name: name ?? from.name, type: type ?? from.type, content: from.content },
    });
    return this.show(session, id);
  }

  /** @throws ProblemException where there is no such draft */
  async show({ organisation }: SessionContext, id: string): Promise<FormulaDraftView> {
    return this.tenancy.reading(organisation, async (client) => {
      const { draft, others } = await draftAndOthers(client, organisation, 'formula', id);
      if (!draft) throw new ProblemException('unknown-draft');
      const reference = {
        versions: await newestVersions(client, organisation),
        specifications: await specifications(client, organisation),
      };
      return viewOf(draft, others, reference, this.clock.now().toISOString());
    });
  }

  /**
   * Exactly what is signed and sent through the door. The door judges it once more.
   * @throws ProblemException where something stands against it, at its first field
   */
  async toSign(session: SessionContext, id: string): Promise<ToSign> {
    const { subject, content, problems, nextNumber, revision, against } = await this.show(session, id);
    const [first] = problems;
    if (first || !signedKind?.signed)
      throw new ProblemException({
        problem: 'draft-not-ready',
        ...(first && { field: first.field, ...(first.acceptable !== null && { acceptable: first.acceptable }) }),
      });
    const { name, type, content: whole } = formulaDraft.parse(content);
    return {
      kind: signedKind.name,
      version: signedKind.version,
      payload: { formula: subject, number: nextNumber, name, type, content: whole },
      meaning: signedKind.signed,
      revision,
      against,
      caution,
    };
  }
}

function viewOf(draft: DraftRow, others: readonly DraftRow[], reference: Reference, now: string): FormulaDraftView {
  const { subject, content } = draft;
  const newest = reference.versions.find((v) => v.formula === subject);
  const lines = draftLines(content);
  const problems = problemsShown(formulaDraftProblems(subject, content, stateOf(reference), now));
  const sum = (some: readonly DraftLine[]): number => some.reduce((mg, l) => mg + l.mg, 0);
  return {
    ...headOf(draft, content['name']),
    content: { ...content },
    problems,
    ready: problems.length === 0,
    nextNumber: (newest?.number ?? 0) + 1,
    against: againstOf(newest, ({ name, type, content: was }) => differences({ name, type, content: was }, content)),
    others: othersOf(others),
    caution,
    figures: { totalMg: sum(lines), flourMg: sum(lines.filter((l) => l.flour)), percents: formulaPercents({ lines }) },
    allergens: shownAllergens(allergensSoFar(subject, lines, reference)),
  };
}

/** A line whose material nobody chose yet makes the answer "not known". */
function allergensSoFar(formula: string, lines: readonly DraftLine[], reference: Reference): AllergenAnswer {
  const chosen = lines.filter((l) => l.known);
  const content = { ...blankFormula('', 'dough').content, lines: chosen, makes: formula };
  const answer = formulaAllergens(content, allergenSourcesOf(reference, { formula, content }));
  return {
    ...answer,
    notKnown: [...answer.notKnown, ...lines.filter((l) => !l.known).map((l) => (l.name === '' ? 'a line without a material' : l.name))],
  };
}
