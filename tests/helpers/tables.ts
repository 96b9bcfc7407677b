import type { AnyCalculation, Rows } from "../../lib/calculations/calculation.ts";

/** The rows of a computed table by column name, words as words. */
export function tableObjects(
  calculation: AnyCalculation,
  id: string,
  inputs: Readonly<Record<string, unknown>>,
): readonly Readonly<Record<string, number | string | null>>[] {
  const table = calculation.tables?.find((candidate) => candidate.id === id);
  if (!table) throw new Error(`${calculation.id} has no table "${id}"`);
  const rows: Rows = table.rows(inputs as never);
  return rows.map((row) =>
    Object.fromEntries(
      table.columns.map(({ name, words }, i) => {
        const cell = row[i] ?? null;
        return [name, words && cell !== null ? (words[cell] ?? null) : cell];
      }),
    ),
  );
}
