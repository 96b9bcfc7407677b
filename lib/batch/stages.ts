import type { CautionNotice, Refusal } from "../calculations/calculation.ts";
import type { BatchValues, Graph, Outcome } from "../calculations/graph.ts";

/** The calculations of the stages after weighing, what they say of fire first. */
export const STAGE_CALCULATIONS = [
  "flash-point",
  "room-vapour",
  "sonication",
  "blending",
  "cooling",
  "thermal-stress",
  "hang",
  "stand-balance",
  "bath-level",
  "evaporation",
] as const;

/** What is on a bench of one's own: until it is typed, the stages speak of the demonstration's. */
const OWN_BENCH = {
  sonication: ["liquidTemperature", "bathTemperature", "ceiling", "stintTime", "restTime"],
  "heat-capacity": ["vesselMass", "bathWaterVolume"],
} as const;

export type StageCalculation = (typeof STAGE_CALCULATIONS)[number];

/** What one stage has no answer to, or wants care with. */
export type StageNotice =
  | (CautionNotice & { readonly calculation: StageCalculation })
  | (Refusal & { readonly calculation: StageCalculation; readonly caution?: undefined });

/**
 * What stands in the way of the stages after weighing, or is not yet safe in them.
 *
 * The flash point's notice speaks for the stints too, whose warmest moment it starts from; nothing else is
 * left out, for each stage has advice of its own.
 */
export function stageNotices(outcomeOf: (id: string) => Outcome): readonly StageNotice[] {
  const said = new Set<string>();
  return STAGE_CALCULATIONS.flatMap((calculation): readonly StageNotice[] => {
    const outcome = outcomeOf(calculation);
    if (!outcome.ok)
      return (
        outcome.refusals
          .slice(0, 1)
          // What only waits for an earlier stage is said there.
          .filter(({ input }) => outcome.inputs[input] !== undefined)
          .map((refusal) => ({ ...refusal, calculation }))
      );
    return outcome.cautions
      .filter(({ caution }) => !(calculation === "sonication" && said.has(caution)))
      .map((notice) => {
        if (calculation === "flash-point") said.add(notice.caution);
        return { ...notice, calculation };
      });
  });
}

/** Labels of what the stages after weighing rest on and the reader has not set: it is invented. */
export function benchStillInvented(graph: Graph, batch: BatchValues): readonly string[] {
  const bench = Object.entries(OWN_BENCH).flatMap(([id, names]) =>
    names.flatMap((name) => graph.get(id).inputs[name] ?? []),
  );
  const { ratedPower, readings } = graph.get("bath-heat").inputs;
  const power = batch["knownFrom"] === "readings" ? readings : ratedPower;
  return [...bench, ...(power ? [power] : [])]
    .filter(({ name }) => batch[name] === undefined)
    .map(({ label }) => label);
}
