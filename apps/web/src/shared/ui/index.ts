export { Button, LinkButton } from './button';
export { Choice, type Option } from './choice';
export { Field } from './field';
export { Mark, StateWord, toneOf, VerdictMark, type Shape, type Tone } from './mark';
export { Caution, Empty, Notice, Refusal } from './notice';
export { figureOf, NumberPad } from './number-pad';
export { Screen, Section } from './screen';
export { Sheet } from './sheet';
export { Tile, Tiles } from './tile';
