import * as v from "valibot";

/** What tells one batch or one piece of gear from every other, in this browser and in files. */
export const id = v.pipe(v.string(), v.regex(/^[a-z0-9-]{8,40}$/));
export const shortText = v.pipe(v.string(), v.maxLength(120));

const key = v.pipe(v.string(), v.regex(/^[a-zA-Z][\w-]*(\.[a-zA-Z]\w*)?$/), v.maxLength(80));
const finite = v.pipe(v.number(), v.finite());
/** Rows of readings, by column. */
const rows = v.pipe(
  v.array(v.pipe(v.array(v.nullable(finite)), v.maxLength(8))),
  v.maxLength(1000),
);
const value = v.union([finite, v.pipe(v.string(), v.maxLength(60)), rows]);

/** Values by batch key, SI. */
export const values = v.record(key, value);
/** The unit each quantity is shown in, by its name. */
export const units = v.record(key, v.pipe(v.string(), v.maxLength(20)));
