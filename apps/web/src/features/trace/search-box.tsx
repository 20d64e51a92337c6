import { found } from '@bakehouse/contracts';
import { useCallback, useEffect, useId, useRef, useState, type KeyboardEvent } from 'react';
import { useLocation } from 'wouter';
import { office } from '../../shared/office-paths';
import { useTabletState } from '../../shared/tablet-context';
import { useLoaded } from '../../shared/use-loaded';
import { Icon } from '../../ui';
import { foundGroups, type FoundGroup, type FoundOne } from './found-groups';
import './search.css';

/** Asked once somebody pauses: so long after the last letter, and from so many letters on. */
const [pauseMs, leastLetters] = [180, 2];

/** “/” brings one here; typed once more it is no part of what is looked for. */
const meant = (typed: string): string => typed.trim().replace(/^\/+\s*/, '');

/** What was typed, what was found for it, and which of that the arrow keys stand on. */
function useSearch() {
  const [words, setWords] = useState('');
  const [open, setOpen] = useState(false);
  const [chosen, setChosen] = useState<string>();
  const { site } = useTabletState();
  const said = meant(words);
  const asked = usePaused(said);
  const { reply } = useLoaded(open && asked.length >= leastLetters ? '/search' : null, found, {
    params: { query: { words: asked, limit: 8 } },
  });
  const groups = reply?.as === 'ok' ? foundGroups(reply.value, site) : [];
  const all = groups.flatMap((group) => group.of);
  const at = all.findIndex((one) => one.key === chosen);
  const close = useCallback((): void => {
    setOpen(false);
    setChosen(undefined);
  }, []);
  const type = (typed: string): void => {
    setWords(typed);
    setChosen(undefined);
    setOpen(true);
  };
  const byKey = (event: KeyboardEvent): void => {
    if (event.key === 'Escape') {
      event.preventDefault(); // it closes what was found, and not what is open beside a list
      close();
    }
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step === undefined || all.length === 0) return;
    event.preventDefault();
    setOpen(true);
    const next = at === -1 && step === -1 ? all.length - 1 : (at + step + all.length) % all.length;
    setChosen(all[next]?.key);
  };
  const showing = open && said.length >= leastLetters && reply !== undefined;
  return { words: said, typed: words, type, byKey, close, groups, one: all[at], showing, failed: reply?.as !== 'ok' };
}

/** From anything that is read out on the telephone to its page: a lot, a batch, a note’s number, a name. “/” and Ctrl and K bring one here. */
export function SearchBox() {
  const { words, typed, type, byKey, close, groups, one, showing, failed } = useSearch();
  const [location, go] = useLocation();
  const box = useRef<HTMLInputElement>(null);
  const id = useId();
  useShortcut(box);
  useEffect(() => {
    close();
    if (location === office.home) box.current?.focus({ preventScroll: true });
  }, [location, close]);
  const leave = (to: string): void => {
    close();
    box.current?.blur();
    go(to);
  };
  return (
    <form
      className="search"
      role="search"
      onSubmit={(event) => {
        event.preventDefault();
        if (words !== '') leave(one?.to ?? office.find(words));
      }}
      onBlur={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget)) close();
      }}
    >
      <label htmlFor={id} className="unseen">
        A lot code, or a name: of a batch, a note, a supplier, a customer, a person
      </label>
      <Icon name="search" />
      <input
        ref={box}
        id={id}
        type="search"
        role="combobox"
        aria-expanded={showing}
        aria-controls={`${id}-found`}
        aria-autocomplete="list"
        aria-activedescendant={one === undefined ? undefined : `${id}-${one.key}`}
        placeholder="Find a lot, batch, note, supplier, customer or person"
        value={typed}
        autoComplete="off"
        autoCapitalize="characters"
        maxLength={120}
        onChange={(event) => type(event.target.value)}
        onKeyDown={byKey}
      />
      <kbd aria-hidden="true">/</kbd>
      {showing ? <Results id={id} groups={groups} chosen={one?.key} failed={failed} onChoose={({ to }) => leave(to)} /> : null}
    </form>
  );
}

interface ResultsProps {
  readonly id: string;
  readonly groups: readonly FoundGroup[];
  readonly chosen: string | undefined;
  readonly failed: boolean;
  readonly onChoose: (one: FoundOne) => void;
}

function Results({ id, groups, chosen, failed, onChoose }: ResultsProps) {
  return (
    <div className="found" id={`${id}-found`} role={groups.length === 0 ? 'status' : 'listbox'} aria-label="Found">
      {groups.length === 0 ? (
        <p className="found-none">
          {failed ? 'This needs the network. Try again when it is back.' : 'Nothing that you may see has that in its code, number or name.'}
        </p>
      ) : null}
      {groups.map((group) => (
        <div key={group.kind} role="group" aria-label={group.kind}>
          <p className="found-kind" aria-hidden="true">
            {group.kind}
          </p>
          {group.of.map((one) => (
            <div
              key={one.key}
              id={`${id}-${one.key}`}
              role="option"
              aria-selected={one.key === chosen}
              className="found-one"
              onMouseDown={(event) => event.preventDefault()}
              onClick={() => onChoose(one)}
            >
              {one.code === null ? null : <span className="code">{one.code}</span>} <strong>{one.title}</strong>{' '}
              <span className="faint">{one.about}</span>
            </div>
          ))}
        </div>
      ))}
    </div>
  );
}

/** What was typed, once nothing more came for a moment. */
function usePaused(words: string): string {
  const [paused, setPaused] = useState(words);
  useEffect(() => {
    const handle = setTimeout(() => setPaused(words), pauseMs);
    return () => clearTimeout(handle);
  }, [words]);
  return paused;
}

function useShortcut(box: { readonly current: HTMLInputElement | null }): void {
  useEffect(() => {
    const press = (event: globalThis.KeyboardEvent): void => {
      const typing = event.target instanceof HTMLElement && event.target.matches('input, textarea, select');
      const wanted = (event.key === '/' && !typing) || (event.key === 'k' && (event.ctrlKey || event.metaKey));
      if (!wanted || document.querySelector('dialog[open]') !== null) return;
      event.preventDefault();
      box.current?.focus();
      box.current?.select();
    };
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  }, [box]);
}
