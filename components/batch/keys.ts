/** Names under which the browser keeps the reader's batch; apart, so that a page can look before it loads. */
export const DATABASE = "bilayer-bench";
export const BATCH_KEY = "bilayer-bench.batch";
export const DRAFTS_KEY = "bilayer-bench.drafts";
