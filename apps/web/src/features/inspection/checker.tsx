import { useState } from 'react';
import { saveFile } from '../../ui/save-file';
import { Button } from '../../ui';

/** The page that an outsider checks the sealed records with, saved beside them: it works from disk, without this computer. */
export function Checker() {
  const [failed, setFailed] = useState(false);
  const save = async (): Promise<void> => {
    const answer = await fetch('/verify.html').catch(() => undefined);
    setFailed(answer?.ok !== true);
    if (answer?.ok === true) saveFile(await answer.blob(), 'verify.html');
  };
  return (
    <>
      <Button onClick={() => void save()}>The page that checks them</Button>
      {failed ? <p role="alert">The page did not come. Try again when the network is back.</p> : null}
    </>
  );
}
