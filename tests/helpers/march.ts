import type { Log } from "../../lib/batch/log.ts";
import { EMPTY_BATCH, type Batch } from "../../lib/batch/record.ts";

const at = (time: string): string => `2026-03-14T${time}.000+01:00`;
const weighed = (ingredient: string, reading: number, time: string) =>
  ({ kind: "weighed", at: at(time), vessel: 1, ingredient, reading }) as Log[number];
/** An evening with one of each kind of entry. */
export const LOG: Log = [
  { kind: "step", at: at("20:00:00"), step: "weigh" },
  weighed("water", 0.3203, "20:01:00"),
  weighed("spirit", 0.4314, "20:02:00"),
  weighed("ascorbic acid", 0.4815, "20:03:00"),
  weighed("lecithin", 0.5114, "20:04:00"),
  { kind: "step", at: at("20:10:00"), step: "stint-1" },
  { kind: "read", at: at("20:15:00"), liquid: 24.5, bath: 25 },
  { kind: "read", at: at("20:19:00"), liquid: 26.1 },
  { kind: "step", at: at("20:20:00"), step: "rest-1" },
  { kind: "read", at: at("20:22:00"), liquid: 27 },
  { kind: "amount", at: at("20:40:00"), of: "bottles", value: 4 },
  { kind: "amount", at: at("20:41:00"), of: "bottles", value: 5 },
  { kind: "note", at: at("20:42:00"), text: "smells clean" },
  { kind: "end", at: at("20:45:00") },
];
/** A batch in one beaker, made and noted. */
export const MARCH: Batch = {
  ...EMPTY_BATCH,
  name: "March",
  id: "march-0001",
  values: { spiritStrength: 0.4, batchVolume: 0.5e-3, ceiling: 35 },
  planned: { spiritStrength: 0.4, batchVolume: 0.5e-3, ceiling: 35 },
  gear: { scale: "Small scale" },
  notes: "sunflower",
  log: LOG,
};
