/**
 * Whether two things of a record say the same, in whatever order their fields were written.
 *
 * @param one - JSON data: objects, lists, texts, finite numbers, `true`, `false`, `null`
 * @param other - the same; a field that is `undefined` is not there
 */
export function isSame(one: unknown, other: unknown): boolean {
  if (typeof one !== "object" || typeof other !== "object" || one === null || other === null)
    return one === other;
  if (Array.isArray(one) !== Array.isArray(other)) return false;
  const [here, there] = [fieldsOf(one), fieldsOf(other)];
  return (
    here.length === there.length &&
    here.every(([name, value]) => Object.hasOwn(other, name) && isSame(value, valueOf(other, name)))
  );
}

function fieldsOf(thing: object): readonly (readonly [string, unknown])[] {
  return Object.entries(thing).filter(([, value]) => value !== undefined);
}

function valueOf(thing: object, name: string): unknown {
  return (thing as Readonly<Record<string, unknown>>)[name];
}
