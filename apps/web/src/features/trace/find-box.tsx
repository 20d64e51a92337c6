import { useState } from 'react';
import { useLocation } from 'wouter';
import { office } from '../../shared/office-paths';
import { Button } from '../../ui';

/** From a lot number on the telephone to what became of it: this is the shortest way there is. */
export function FindBox({ start = '', focus = false }: { readonly start?: string; readonly focus?: boolean }) {
  const [words, setWords] = useState(start);
  const [, go] = useLocation();
  const asked = words.trim();
  return (
    <form
      className="find"
      role="search"
      onSubmit={(event) => {
        event.preventDefault();
        if (asked !== '') go(office.find(asked));
      }}
    >
      <label htmlFor="find">A lot code, or a name</label>
      <div className="find-line">
        <input
          id="find"
          type="search"
          value={words}
          autoFocus={focus}
          autoComplete="off"
          autoCapitalize="characters"
          maxLength={120}
          onChange={(event) => setWords(event.target.value)}
        />
        <Button look="go" submit disabled={asked === ''}>
          Find it
        </Button>
      </div>
    </form>
  );
}
