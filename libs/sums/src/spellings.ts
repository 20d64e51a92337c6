/** A body's fields before they are checked. */
export type Fields = Readonly<Record<string, unknown>>;

/** True for an object with fields, not for a list. */
export function isFields(raw: unknown): raw is Fields {
  return typeof raw === 'object' && raw !== null && !Array.isArray(raw);
}

/** Other names replaced with the canonical one, where that is not given itself: two names for one thing stay, and are refused later. */
export function renamed(raw: Fields, names: Readonly<Record<string, string>>): Fields {
  const taken = new Set(Object.keys(raw));
  return Object.fromEntries(
    Object.entries(raw).map(([field, value]) => {
      const name = Object.hasOwn(names, field) ? names[field] : undefined;
      if (name === undefined || taken.has(name)) return [field, value];
      taken.add(name);
      return [name, value];
    }),
  );
}

/** The field changed by a function, where it is there. */
export function changed(raw: Fields, name: string, change: (value: unknown) => unknown): Fields {
  return Object.hasOwn(raw, name) ? { ...raw, [name]: change(raw[name]) } : raw;
}

/** The fields of the object in one field, moved up beside the others: `to: { pieces }` as `pieces`. A field that is there already stays, and is refused later. */
export function lifted(raw: Fields, name: string): Fields {
  const { [name]: inner, ...rest } = raw;
  return isFields(inner) && Object.keys(inner).every((field) => !Object.hasOwn(rest, field)) ? { ...rest, ...inner } : raw;
}

/** A list that is short enough to read before it is checked. */
export const isShortList = (value: unknown): value is readonly unknown[] => Array.isArray(value) && value.length <= 1000;
