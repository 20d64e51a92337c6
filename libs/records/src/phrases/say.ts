/** What a screen says, and what a printed paper says, for one value. */
export interface Words {
  readonly plain: string;
  readonly official: string;
}

/** Plain words, with the official ones where they differ; else the same, begun with a capital. */
export function say(plain: string, official = plain.charAt(0).toUpperCase() + plain.slice(1)): Words {
  return { plain, official };
}
