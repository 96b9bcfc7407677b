import { amount, asResult, defineCalculation, phrase, type InputValues } from "./calculation.ts";
import { TEMPERATURE } from "./quantities/kinds.ts";
import {
  CHILL_LIMIT,
  DAYS,
  FRIDGE_LIMIT,
  fridgeCap,
  storeTemperature,
  timeOfLoss,
} from "./quantities/storage.ts";

const DAY = 86_400;
/** Between the fridge’s limit and the legal one, this share of the cap (common practice, no source). */
const LESS_COLD = 0.5;
/** K: as far as a fridge thermometer may be off (common practice, no source). */
const THERMOMETER = 1;
/** Kept warmer than that: a day (common practice, no source). */
const UNCHILLED = DAY;

const inputs = { lossTime: timeOfLoss, temperature: storeTemperature, fridgeCap } as const;

type Given = InputValues<typeof inputs>;

// A rule and no estimate: what is unsure of the acid is in its own time, taken at the cautious end.
const term = { ...DAYS, digits: 2, bounds: { min: 0 }, unbanded: true } as const;

export const keeping = defineCalculation({
  id: "keeping",
  title: "When to throw it away",
  summary: "The discard date: the sooner of lost acid and what may grow, and which of them decides",
  inputs,
  links: { lossTime: "storage-loss.timeToLimit", temperature: "storage-loss.keptAt" },
  results: {
    discardTime: {
      ...term,
      label: "Throw it away after",
      symbol: String.raw`t_\mathrm{d}`,
      hint: "Counted from the making; round down to whole days",
    },
    acidTime: asResult(timeOfLoss, {
      label: "Because of the acid",
      symbol: String.raw`t_\mathrm{acid}`,
      bounds: { min: 0 },
      byFactor: true,
      digits: 2,
    }),
    microbeTime: {
      ...term,
      label: "Because of what may grow",
      symbol: String.raw`t_\mathrm{grow}`,
      hint: "A custom for perishables, and no count of germs",
    },
  },
  compute: (given) => {
    const microbes = microbeTime(given);
    return {
      discardTime: Math.min(given.lossTime, microbes),
      acidTime: given.lossTime,
      microbeTime: microbes,
    };
  },
  steps: [
    {
      result: "discardTime",
      tex: (slot) => String.raw`\min\left(${slot("acidTime")},\;${slot("microbeTime")}\right)`,
    },
  ],
  figures: [
    {
      id: "which-first",
      title: "Which comes first",
      caption:
        "Time from the making until too much acid may be lost, and until something may grow. The shorter bar is the date.",
      data: (given) => ({
        x: { label: "After the making", of: DAYS },
        bars: [
          { label: "Acid", value: given.lossTime },
          { label: "Growth", value: microbeTime(given) },
        ],
      }),
    },
  ],
  tables: [
    {
      id: "reasons",
      title: "Which of them decides",
      columns: [
        {
          name: "reason",
          label: "Reason",
          dimension: "count",
          units: ["1"],
          digits: 1,
          words: ["too much acid may be lost", "something may grow in it"],
        },
        { name: "after", label: "Throw it away after", ...DAYS, digits: 2 },
        {
          name: "decides",
          label: "Decides",
          dimension: "count",
          units: ["1"],
          digits: 1,
          words: ["no", "yes"],
        },
      ],
      rows: (given) => {
        const { lossTime } = given;
        const microbes = microbeTime(given);
        return [
          [0, lossTime, lossTime <= microbes ? 1 : 0],
          [1, microbes, microbes <= lossTime ? 1 : 0],
        ];
      },
    },
  ],
  cautions: [
    {
      caution: "spoilage",
      when: ({ temperature }) =>
        temperature <= FRIDGE_LIMIT && temperature > FRIDGE_LIMIT - THERMOMETER,
      say: ({ temperature }) =>
        phrase`At ${amount(temperature, TEMPERATURE)} this is so near the ${amount(FRIDGE_LIMIT, TEMPERATURE)} that food agencies ask of a fridge that a thermometer a degree off would hide it. Set the fridge colder, or halve the time.`,
    },
    {
      caution: "spoilage",
      when: ({ temperature }) => temperature > FRIDGE_LIMIT,
      say: ({ temperature }) =>
        phrase`At ${amount(temperature, TEMPERATURE)} this is warmer than the ${amount(FRIDGE_LIMIT, TEMPERATURE)} that food agencies ask of a fridge, and what grows does so faster. The date is cut for it; a colder fridge is the better cure.`,
    },
  ],
  sources: ["fsa-fridge", "fda-fridge", "preservation-course", "ecfr-21-114", "common-practice"],
});

function microbeTime({ temperature, fridgeCap: cap }: Given): number {
  if (temperature <= FRIDGE_LIMIT) return cap;
  if (temperature <= CHILL_LIMIT) return LESS_COLD * cap;
  return Math.min(cap, UNCHILLED);
}
