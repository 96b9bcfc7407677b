/** An id that no other batch or piece of gear has, here or anywhere. */
export function newId(): string {
  // Served over plain http in a home network, a page has random numbers but no ready-made ids.
  if ("randomUUID" in crypto) return crypto.randomUUID();
  const bytes = (crypto as Crypto).getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
