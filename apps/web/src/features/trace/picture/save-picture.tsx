import { saveFile } from '../../../ui/save-file';
import { Button } from '../../../ui';
import { svgFile, type Paper } from './svg-file';

/** The picture as a file, to be printed or put into a report. */
export function SavePicture(of: Paper) {
  return (
    <Button
      onClick={() => saveFile(new Blob([svgFile(of)], { type: 'image/svg+xml' }), `${of.title.replaceAll(/[^\p{L}\p{N}]+/gu, '-')}.svg`)}
    >
      The picture (SVG)
    </Button>
  );
}
