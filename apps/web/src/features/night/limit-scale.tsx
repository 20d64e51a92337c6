import { scaleOf, type FromLimit } from './from-limit';

/** Close to an end of the line its word begins or ends there. */
const anchor = (percent: number): 'start' | 'middle' | 'end' => (percent < 15 ? 'start' : percent > 85 ? 'end' : 'middle');

interface Props {
  readonly of: FromLimit;
  readonly value: string;
  readonly allowed: string;
}

/** A line with the allowed range on it, and where the value stands. The words above say the same, so it is silent to a screen reader. */
export function LimitScale({ of, value, allowed }: Props) {
  const scale = scaleOf(of);
  const middle = (scale.from + scale.to) / 2;
  return (
    <svg className="limit-scale" aria-hidden="true" focusable="false">
      <line className="scale-line" x1="0" x2="100%" y1="2.25rem" y2="2.25rem" />
      <line className="scale-allowed" x1={`${scale.from}%`} x2={`${scale.to}%`} y1="2.25rem" y2="2.25rem" />
      <line className="scale-value" x1={`${scale.value}%`} x2={`${scale.value}%`} y1="1.5rem" y2="3rem" />
      <text className="scale-figure" x={`${scale.value}%`} y="1.15rem" textAnchor={anchor(scale.value)}>
        {value}
      </text>
      <text x={`${middle}%`} y="4.25rem" textAnchor={anchor(middle)}>
        {allowed}
      </text>
    </svg>
  );
}
