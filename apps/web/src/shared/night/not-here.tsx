import { Empty, Screen } from '../../ui';

interface Props {
  readonly title: string;
  readonly back: { readonly to: string; readonly text: string };
  /** Such as “make”. */
  readonly what: string;
}

/** The screen of something that this tablet does not hold: of another night, or not come yet. */
export function NotHere({ title, back, what }: Props) {
  return (
    <Screen title={title} back={back}>
      <Empty>This {what} is not in today’s bake.</Empty>
    </Screen>
  );
}
