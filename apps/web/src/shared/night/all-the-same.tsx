import type { LeavingTrouble } from '@bakehouse/records';
import { codeOf, concernView, leavingOn, troubleOn, type Lookup } from '@bakehouse/views';
import { useState, type ReactNode } from 'react';
import { Concerns, TroubleWord, troubleText } from '../concerns';
import { Button, Sheet } from '../../ui';
import { codeText } from './code-text';
import { useNight } from './use-night';

interface Troubled {
  readonly lot: string;
  readonly name: string;
  readonly trouble: LeavingTrouble;
}

/** Used here, done away with, or on its way to customers: only then it has to be released as well. */
type What = 'using' | 'doing-away' | 'leaving';

const troubledOf = (lookup: Lookup, lots: readonly (string | null)[], what: What): Troubled[] =>
  [...new Set(lots)].flatMap((lot) => {
    const trouble = lot === null ? null : what === 'leaving' ? leavingOn(lookup, lot) : troubleOn(lookup, lot);
    if (lot === null || trouble === null) return [];
    return [{ lot, name: `${lookup.state.get('lot', lot)?.name ?? 'It'}, ${codeText(codeOf(lookup, lot))}`, trouble }];
  });

export interface AllTheSame {
  /** Does it at once where nothing speaks against these lots, nor `more` does; else it says what does, and one more tap does it. */
  readonly unlessTroubled: (lots: readonly (string | null)[], go: () => void, what?: What, more?: readonly string[]) => void;
  readonly asked: ReactNode;
}

/** Asks once more before something is used that is on hold, refused or past its use-by date. That it was used is then recorded as ever. */
export function useAllTheSame(): AllTheSame {
  const { lookup } = useNight();
  const [asking, setAsking] = useState<{
    readonly troubled: readonly Troubled[];
    readonly more: readonly string[];
    readonly go: () => void;
  }>();
  const close = (): void => setAsking(undefined);
  return {
    unlessTroubled: (lots, go, what = 'using', more = []) => {
      const troubled = troubledOf(lookup, lots, what);
      if (troubled.length + more.length === 0) go();
      else setAsking({ troubled, more, go });
    },
    asked: asking ? (
      <Sheet title="Use it all the same?" onClose={close}>
        <ul className="rows">
          {asking.more.map((text) => (
            <li key={text} className="row">
              <span className="row-main">{text}</span>
            </li>
          ))}
          {asking.troubled.map((t) => (
            <li key={t.lot} className="row">
              <span className="row-main">
                <strong>{t.name}</strong> is {troubleText(t.trouble)}
              </span>
              <WhatSpeaksAgainst of={t} lookup={lookup} />
            </li>
          ))}
        </ul>
        <p>If you go on, it is recorded as what happened. What speaks against it stays until somebody has decided, signed.</p>
        <div className="buttons">
          <Button look="go" onClick={close}>
            Do not use it
          </Button>
          <Button
            look="grave"
            onClick={() => {
              close();
              asking.go();
            }}
          >
            Use it all the same
          </Button>
        </div>
      </Sheet>
    ) : null,
  };
}

function WhatSpeaksAgainst({ of: { lot, trouble }, lookup }: { readonly of: Troubled; readonly lookup: Lookup }) {
  const concerns = (lookup.concerns.get(lot) ?? []).map((r) => concernView(lookup.state, r, lot));
  return concerns.length === 0 ? <TroubleWord trouble={trouble} /> : <Concerns concerns={concerns} lot={lot} />;
}
