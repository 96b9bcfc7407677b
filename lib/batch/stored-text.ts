import * as v from "valibot";

/** A kind of text that the notebook keeps or gives out as a file. */
export interface TextKind<T> {
  /** Marks the text as ours, and as of this kind. */
  readonly format: string;
  readonly version: number;
  /** What it is in a sentence, after “a”, and the name under which it lies in the text. */
  readonly called: string;
  readonly key: string;
  readonly schema: v.GenericSchema<unknown, T>;
  /** Far above any real one, characters; a longer text is not ours. */
  readonly longest: number;
}

export type ReadText<T> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly message: string };

/** A thing as text of its kind. */
export function writeText<T>({ format, version, key }: TextKind<T>, value: T): string {
  return JSON.stringify({ format, version, [key]: value }, null, 2);
}

/**
 * Reads a stored, shared or imported text. It is never trusted: shape, lengths and numbers are checked.
 *
 * @returns what is in it, or a sentence that says what is wrong with the text; never throws
 */
export function readText<T>(kind: TextKind<T>, text: string): ReadText<T> {
  const { called, key, schema } = kind;
  if (text.length > kind.longest)
    return { ok: false, message: `It is far too long to be a ${called} of this notebook.` };
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return {
      ok: false,
      message: `It is not a ${called} file: the text is damaged or of another kind.`,
    };
  }
  const version = versionOf(data, kind.format);
  if (version === undefined)
    return {
      ok: false,
      message: `It is a file of another kind, not a ${called} of this notebook.`,
    };
  if (version > kind.version)
    return {
      ok: false,
      message: `It was written by a newer version of this notebook (format ${version}, this one reads ${kind.version}). Update the notebook, then open it again.`,
    };
  const parsed = v.safeParse(
    v.strictObject({
      format: v.literal(kind.format),
      version: v.literal(kind.version),
      [key]: schema,
    }),
    data,
  );
  if (parsed.success) return { ok: true, value: parsed.output[key] as T };
  const where = v.getDotPath(parsed.issues[0]) ?? "its first line";
  return { ok: false, message: `It is a ${called} of this notebook, but damaged at “${where}”.` };
}

function versionOf(data: unknown, wanted: string): number | undefined {
  if (typeof data !== "object" || data === null) return undefined;
  const { format, version } = data as { format?: unknown; version?: unknown };
  return format === wanted && typeof version === "number" ? version : undefined;
}
