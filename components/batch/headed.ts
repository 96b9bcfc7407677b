/**
 * A sentence under the title of the calculation that says it.
 *
 * @param title - a name, or a question with its own mark
 */
export function headed(title: string, sentence: string): string {
  return `${title}${title.endsWith("?") ? "" : ":"} ${sentence}`;
}
