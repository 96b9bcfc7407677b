import type { APIRoute } from "astro";
import { recordsJsonSchema } from "../../../../lib/batch/records-schema.ts";

/** The schema of a file of records, written at build from what reads such a file. */
export const GET: APIRoute = () => new Response(JSON.stringify(recordsJsonSchema(), null, 2));
