type Names = (name: string) => boolean;

/** The fields of a record whose names are meant. */
export function only<T>(from: Readonly<Record<string, T>>, meant: Names): Record<string, T> {
  return Object.fromEntries(Object.entries(from).filter(([name]) => meant(name)));
}

/** The fields of a record whose names are not meant. */
export function without<T>(from: Readonly<Record<string, T>>, meant: Names): Record<string, T> {
  return only(from, (name) => !meant(name));
}
