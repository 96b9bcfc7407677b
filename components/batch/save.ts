const TYPES = { json: "application/json", csv: "text/csv" } as const;
type Ending = keyof typeof TYPES;

/** A name for a file, after what is in it. */
export function fileName(name: string, ending: Ending): string {
  const plain = name
    .normalize("NFKD")
    .replaceAll(/[^\w-]+/g, "-")
    .replaceAll(/^-+|-+$/g, "")
    .toLowerCase();
  return `${plain === "" ? "batch" : plain}.${ending}`;
}

/** Gives the reader a text as a file. */
export function save(text: string, name: string): void {
  const type = TYPES[name.endsWith(".csv") ? "csv" : "json"];
  const url = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  URL.revokeObjectURL(url);
}
