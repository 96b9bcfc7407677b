import { readFile, readdir, writeFile } from "node:fs/promises";
import { join, relative, sep } from "node:path";

/** A start tag with its attributes; a ">" inside quotes does not end it. */
export const START_TAG = /<[a-zA-Z][^\s>]*(?:"[^"]*"|'[^']*'|[^'">])*>/g;

/**
 * Goes over the files that a build has written, once it is done.
 *
 * @param root - the folder they are in
 * @param rewrite - by ending of the file's name; each takes the text and the path from the root, with slashes
 */
export async function rewriteBuilt(
  root: string,
  rewrite: Readonly<Record<string, (text: string, file: string) => string>>,
): Promise<void> {
  const entries = await readdir(root, { recursive: true, withFileTypes: true });
  await Promise.all(
    entries.map(async (entry) => {
      const change = rewrite[/\.\w+$/.exec(entry.name)?.[0] ?? ""];
      if (!entry.isFile() || !change) return;
      const path = join(entry.parentPath, entry.name);
      const before = await readFile(path, "utf8");
      const after = change(before, relative(root, path).split(sep).join("/"));
      if (after !== before) await writeFile(path, after);
    }),
  );
}
