// What the language has, as it was before any test ran. A library that puts its own in place of it changes what every later file of the worker tests.
const things = {
  Array,
  ArrayBuffer,
  Date,
  Error,
  Function,
  JSON,
  Map,
  Math,
  Number,
  Object,
  Promise,
  Reflect,
  RegExp,
  Set,
  String,
  Symbol,
  WeakMap,
};
const parts = Object.entries(things).flatMap(([name, of]) => [[name, of], ...(of.prototype ? [[`${name}.prototype`, of.prototype]] : [])]);
const had = parts.map(([name, of]) => [name, of, Object.getOwnPropertyDescriptors(of)]);

/** The names of what is no longer what it was; each is named once, since what is loaded stays loaded. */
export function replaced() {
  const found = [];
  for (const [name, of, before] of had)
    for (const key of Reflect.ownKeys(before)) {
      const now = Object.getOwnPropertyDescriptor(of, key);
      if (Object.is(now?.value, before[key].value) && now?.get === before[key].get) continue;
      found.push(`${name}.${String(key)}`);
      before[key] = now ?? {};
    }
  return found;
}
