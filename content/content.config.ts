import { glob } from "astro/loaders";
import { z } from "astro/zod";
import { defineCollection } from "astro:content";

const chapters = defineCollection({
  loader: glob({ base: "./content/chapters", pattern: "*.mdx" }),
  schema: z.object({
    title: z.string(),
    /** its place in the order of the work, from 1 */
    order: z.number().int().positive(),
    /** what a reader at the bench asks */
    question: z.string(),
    /** one line for lists and search engines */
    summary: z.string(),
    /** ids of `lib/calculations`, the first being the chapter's own */
    calculations: z.array(z.string()),
    /** further files of content/checks that bear on it */
    evidence: z.array(z.string()).default([]),
    /** ids of the cautions that its numbers touch */
    cautions: z.array(z.string()),
  }),
});

const cautions = defineCollection({
  loader: glob({ base: "./content/cautions", pattern: "*.mdx" }),
  schema: z.object({
    title: z.string(),
    order: z.number().int().positive(),
    /** what to do, in one sentence that stands alone */
    summary: z.string(),
    /** ids of `content/sources.json` */
    sources: z.array(z.string()),
  }),
});

export const collections = { chapters, cautions };
