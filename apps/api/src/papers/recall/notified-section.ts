import type { NotifiedInCase } from '@bakehouse/contracts';
import { wallTime } from '../../platform/clock/index.js';
import { heading, lines, onPaper, paragraph, strong, table, type Content } from '../layout/index.js';
import type { CasePaper } from './case-paper.js';

export const nobodyTold = 'Nobody has recorded that the authority was told. Ring your local food-safety authority first.';

/** That the authority was told, and the public: when, how, under which reference, and who recorded it. */
export function notifiedSection({ recall, zone }: CasePaper): Content[] {
  return [
    heading('Authority and public'),
    ...(recall.notified.some((n) => n.to === 'authority') ? [] : [paragraph(nobodyTold)]),
    ...(recall.notified.length === 0
      ? []
      : [
          table<NotifiedInCase>(
            [
              {
                title: 'When',
                width: 110,
                of: (n) =>
                  lines([
                    wallTime(n.at, zone),
                    ...(n.at < recall.openedAt ? ['before the case was opened'] : []),
                    ...(recall.closedAt !== null && n.at >= recall.closedAt ? ['after the case was closed'] : []),
                  ]),
              },
              { title: 'What', width: 110, of: (n) => lines([strong(onPaper('notifiedTo', n.to)), onPaper('notifiedHow', n.how)]) },
              { title: 'Reference', width: 90, of: (n) => n.reference ?? '' },
              {
                title: 'Whom they spoke to, and what was said',
                width: '*',
                of: (n) => lines([...(n.spokeTo === null ? [] : [n.spokeTo]), ...(n.said === null ? [] : [`“${n.said}”`])]),
              },
              { title: 'By', width: 80, of: (n) => n.by ?? 'name withheld' },
            ],
            recall.notified,
            '',
          ),
        ]),
  ];
}
