import { writeFile } from 'node:fs/promises';
import path from 'node:path';
import { daysAfter } from '@bakehouse/kernel';
import { foundLots, recallView, type RecallView } from '@bakehouse/contracts';
import type { Founded } from '../found.js';
import type { Caller } from './caller.js';
import { must } from './night.js';

export interface Called {
  readonly recall: RecallView;
  /** From the lot number to the list of whom to ring, by the wall's clock. */ readonly seconds: number;
}

/** The importer has rung: from the lot number to everything that holds it and whom to ring. */
export async function runRecall(lead: Caller, id: string, practice: boolean): Promise<Called> {
  const began = performance.now();
  const [lot] = foundLots.parse(await lead.get('/lots?words=A77'));
  must(lot?.code === 'A77', 'no lot A77 was found');
  const recall = recallView.parse(
    await lead.post('/recalls', {
      id,
      suspect: [lot.id],
      hazard: 'microbiological',
      hazardName: 'Salmonella',
      practice,
      said: 'Ninefold Nut Imports rang about ground almond, lot A77',
    }),
  );
  const seconds = (performance.now() - began) / 1000;
  must(recall.practice === practice && recall.trace.contacts.length > 0, 'the case has no contacts');
  must(recall.trace.contacts[0]?.vulnerable === true, 'vulnerable consumers are not on top of the list');
  return { recall, seconds };
}

/** The papers of the case, and the pack that an inspector takes of the last week, as the service makes them, into a folder. Gives their names and sizes. */
export async function fetchPapers(
  { lead, inspector }: { readonly lead: Caller; readonly inspector: Caller },
  { sites, whole }: Founded,
  recall: string,
  folder: string,
): Promise<readonly string[]> {
  const { lastDay } = whole.story.world;
  const week = `from=${daysAfter(lastDay, -6)}&until=${lastDay}`;
  const papers = [
    [lead, 'recall.pdf', `/recalls/${recall}/papers/recall.pdf`, '%PDF-'],
    [lead, 'recall.xlsx', `/recalls/${recall}/papers/recall.xlsx`, 'PK'],
    [lead, 'recall.json', `/recalls/${recall}/papers/recall.json`, '{'],
    [inspector, 'inspection-pack.pdf', `/sites/${sites.bakehouse}/inspection/pack.pdf?${week}`, '%PDF-'],
  ] as const;
  const written: string[] = [];
  for (const [who, name, from, begins] of papers) {
    const bytes = await who.file(from);
    must(new TextDecoder('latin1').decode(bytes.subarray(0, begins.length)) === begins, `${name} is not what its name says`);
    await writeFile(path.join(folder, name), bytes);
    written.push(`${name}, ${Math.ceil(bytes.length / 1024)} kB`);
  }
  return written;
}
