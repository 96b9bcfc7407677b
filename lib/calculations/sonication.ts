import {
  endOfStint,
  firstTimeAbove,
  heatProgramme,
  longestStint,
  peakLiquid,
  programmeAt,
  PROGRAMME_LIMITS,
  restNeeded,
  type HeatBench,
  type HeatPiece,
} from "../laws/heat-programme.ts";
import { steadyTemperatures, type NodeTemperatures } from "../laws/two-node-heat.ts";
import {
  amount,
  defineCalculation,
  phrase,
  RefusedError,
  type InputValues,
  type Result,
  type Rows,
} from "./calculation.ts";
import { curveBand } from "./curve-band.ts";
import {
  bathHeatCapacity,
  bathLossConductance,
  bathTemperature,
  ceiling,
  exchangeConductance,
  heaterOn,
  heaterPower,
  heaterSetting,
  liquidHeatCapacity,
  liquidLossConductance,
  liquidTemperature,
  powerToBath,
  powerToLiquid,
  restTime,
  roomTemperature,
  stints,
  stintTime,
} from "./quantities/heat.ts";
import { solventMassFraction } from "./quantities/batch.ts";
import { COUNT, RISE, TEMPERATURE, TIME } from "./quantities/kinds.ts";
import { flashesFrom, SCALDS_FROM } from "./thresholds.ts";

const reached: Omit<Result, "label" | "symbol"> = { ...TEMPERATURE, digits: 3 };
const lasting: Omit<Result, "label" | "symbol"> = { ...TIME, byFactor: true, bounds: { min: 0 } };

/** s: the longest stint looked for, and how long the liquid is followed after the last one. */
const LONGEST = 21_600;
const FOLLOWED = 14_400;
/** s: how long the drawing goes on after the last stint. */
const DRAWN = 1800;
/** s: the timers of common baths end here (common practice, no source). */
const TIMER = 1800;
const MINUTE = 60;
/** s: a longer rest is another evening. */
const LONGEST_REST = 10_800;
/** No rest and nothing after: for what a single stint does. */
const ONE_STINT = { restTime: 0, stints: 1, coolDown: 0 } as const;
/** J/K: less than a cup of water is no bath. */
const NO_BATH = 1000;

const inputs = {
  liquidTemperature,
  bathTemperature,
  roomTemperature,
  ceiling,
  stintTime,
  restTime,
  stints,
  heaterOn,
  heaterSetting,
  heaterPower,
  powerToLiquid,
  powerToBath,
  exchangeConductance,
  liquidHeatCapacity,
  bathHeatCapacity,
  liquidLossConductance,
  bathLossConductance,
  solventMassFraction,
} as const;

type Given = InputValues<typeof inputs>;

export const sonication = defineCalculation({
  id: "sonication",
  title: "Stints in the bath",
  summary:
    "How warm liquid and bath get in stints with rests between, and how long a stint may last",
  inputs,
  links: {
    powerToLiquid: "bath-heat.powerToLiquid",
    powerToBath: "bath-heat.powerToBath",
    exchangeConductance: "bath-heat.exchangeConductance",
    liquidHeatCapacity: "heat-capacity.liquidHeatCapacity",
    bathHeatCapacity: "heat-capacity.bathHeatCapacity",
    solventMassFraction: "recipe.solventMassFraction",
  },
  // Only a caution reads it, with a band of its own.
  decided: ["solventMassFraction"],
  results: {
    endLiquidTemperature: {
      ...reached,
      label: "Liquid at the end of the first stint",
      symbol: String.raw`T_\ell`,
    },
    endBathTemperature: {
      ...reached,
      label: "Bath at the end of the first stint",
      symbol: String.raw`T_\mathrm{b}`,
    },
    lag: {
      ...RISE,
      label: "Bath minus liquid, end of the first stint",
      symbol: String.raw`\Delta`,
      hint: "What a display in the bath reads too high for the liquid; below zero, too low",
    },
    peakLiquidTemperature: {
      ...reached,
      label: "Highest liquid temperature of the whole programme",
      symbol: String.raw`T_\mathrm{peak}`,
      hint: "Rests and four hours after the last stint included",
    },
    peakTime: {
      ...lasting,
      finest: 60,
      label: "When it is highest",
      symbol: String.raw`t_\mathrm{peak}`,
      hint: "Since the first stint began",
    },
    programmeTime: {
      ...TIME,
      label: "The whole programme lasts",
      symbol: String.raw`t_\mathrm{all}`,
      hint: "Stints and the rests between them",
      bounds: { min: 0 },
    },
    timeToCeiling: {
      ...lasting,
      label: "Time to your ceiling without a rest",
      symbol: String.raw`t_\mathrm{c}`,
      none: "never",
      hint: "“Never”: it does not get there, however long the bath runs",
    },
    longestStint: {
      ...lasting,
      label: "Longest first stint under your ceiling",
      symbol: String.raw`t_\mathrm{long}`,
      hint: "What happens after switching off is counted; six hours is the longest looked for",
    },
    restNeeded: {
      ...lasting,
      label: "Rest until the liquid is back where it began",
      symbol: String.raw`t_\mathrm{back}`,
      none: "never",
      hint: "“Never”: resting in this room does not bring it back",
    },
    steadyLiquidTemperature: {
      ...reached,
      label: "Liquid, if the bath ran for ever",
      symbol: String.raw`T_\ell^\infty`,
      hint: "“None”: with no loss to the air it rises without end. Far above 60 °C the model no longer holds",
    },
    steadyBathTemperature: {
      ...reached,
      label: "Bath, if it ran for ever",
      symbol: String.raw`T_\mathrm{b}^\infty`,
    },
    pooledRate: {
      label: "Warming rate of the two together, without loss",
      symbol: String.raw`\dot T`,
      dimension: "warmingRate",
      units: ["K/h", "K/min"],
      digits: 3,
      minor: true,
    },
    settledLag: {
      ...RISE,
      label: "Bath minus liquid once settled, without loss",
      symbol: String.raw`\Delta_\infty`,
      minor: true,
    },
    settlingTime: {
      ...lasting,
      label: "Time constant of settling",
      symbol: String.raw`\tau`,
      minor: true,
    },
  },
  compute: (given) => new Stints(given),
  steps: [
    {
      result: "pooledRate",
      tex: (slot) =>
        String.raw`\frac{${slot("powerToLiquid")} + ${slot("powerToBath")}}{${slot("liquidHeatCapacity")} + ${slot("bathHeatCapacity")}}`,
    },
    {
      result: "settlingTime",
      tex: (slot) =>
        String.raw`\frac{1}{${slot("exchangeConductance")}}\by\frac{${slot("liquidHeatCapacity")}\by ${slot("bathHeatCapacity")}}{${slot("liquidHeatCapacity")} + ${slot("bathHeatCapacity")}}`,
    },
    {
      result: "settledLag",
      tex: (slot) =>
        String.raw`\left(\frac{${slot("powerToBath")}}{${slot("bathHeatCapacity")}} - \frac{${slot("powerToLiquid")}}{${slot("liquidHeatCapacity")}}\right)\by ${slot("settlingTime")}`,
    },
    {
      result: "lag",
      tex: (slot) => String.raw`${slot("endBathTemperature")} - ${slot("endLiquidTemperature")}`,
    },
  ],
  figures: [
    {
      id: "programme",
      title: "The whole programme",
      caption:
        "Liquid and bath through stints and rests, with the band of the liquid (19 times in 20) and your ceiling. Drag the marked ends to change stint and rest, or type them above.",
      data: (given, _, spread) => {
        const pieces = programmeOf(given, DRAWN);
        const times = timesOf(pieces);
        const points = times.map((time) => [time, stateAt(pieces, time)] as const);
        const first = stateAt(pieces, given.stintTime);
        const resting = given.stintTime + given.restTime;
        return {
          x: { label: "Time", of: TIME },
          y: { label: "Temperature", of: TEMPERATURE },
          lines: [
            { label: "liquid", points: points.map(([time, { liquid }]) => [time, liquid]) },
            { label: "bath", points: points.map(([time, { bath }]) => [time, bath]), dashed: true },
          ],
          bands: [
            // Every point of a band costs two curves for each uncertain quantity.
            { points: curveBand(timesOf(pieces, POINTS / 2), liquidCurve, given, spread()) },
          ],
          rules: [{ y: given.ceiling, label: "your ceiling" }],
          marks: [
            {
              x: given.stintTime,
              y: first.liquid,
              label: "stint ends",
              drag: { input: "stintTime", from: 0 },
            },
            ...(given.stints > 1
              ? [
                  {
                    x: resting,
                    y: stateAt(pieces, resting).liquid,
                    label: "rest ends",
                    drag: { input: "restTime", from: given.stintTime },
                  },
                ]
              : []),
          ],
        };
      },
    },
    {
      id: "cold-start",
      title: "A colder bath buys time",
      caption:
        "The longest first stint under your ceiling, against the temperature the bath starts from. Fresh cold water lengthens a stint more than anything else on the bench.",
      data: ({ bathTemperature: bath, ceiling: top }, run) => {
        const [from, to] = [5, Math.max(top, bath)];
        const points = Array.from({ length: 31 }, (_, i) => from + ((to - from) * i) / 30).flatMap(
          (start): [number, number][] => {
            const value = run({ bathTemperature: start })?.["longestStint"];
            return value ? [[start, value.value]] : [];
          },
        );
        const here = run({})?.["longestStint"];
        return {
          x: { label: "Bath at the start", of: bathTemperature },
          y: { label: "Longest first stint", of: TIME, domain: [0, domainTop(points)] },
          lines: [{ label: "longest stint", points }],
          marks: here ? [{ x: bath, y: here.value, label: "yours" }] : [],
        };
      },
    },
  ],
  tables: [
    {
      id: "timeline",
      title: "The programme, stage by stage",
      columns: [
        {
          name: "stage",
          label: "Stage",
          dimension: "count",
          units: ["1"],
          digits: 1,
          words: ["stint", "rest", "after"],
        },
        { name: "number", label: "Number", ...COUNT },
        { name: "begins", label: "Begins at", ...TIME },
        { name: "lasts", label: "Lasts", ...TIME },
        { name: "liquid", label: "Liquid at its end", ...TEMPERATURE },
        { name: "bath", label: "Bath at its end", ...TEMPERATURE },
        { name: "peak", label: "Liquid, highest", ...TEMPERATURE },
      ],
      rows: (given) => stagesOf(programmeOf(given, FOLLOWED)),
    },
  ],
  offers: [
    {
      id: "longest-stints",
      label: "Longest stints under my ceiling",
      take: (given) => {
        for (let time = TIMER; time >= MINUTE; time -= MINUTE)
          if (staysUnder({ ...given, stintTime: time })) return { stintTime: time };
        return [
          "With these rests no stint of a minute or more stays under it. Rest longer, or start with a colder bath.",
        ];
      },
    },
    {
      id: "fewest-rests",
      label: "Fewest rests for the same time in all",
      take: (given) => {
        const total = given.stintTime * given.stints;
        for (let n = Math.ceil(total / TIMER); n <= stints.limits.max; n++) {
          const stintTime = total / n;
          for (let rest = n === 1 ? LONGEST_REST : 0; rest <= LONGEST_REST; rest += 5 * MINUTE) {
            const taken = { stintTime, restTime: n === 1 ? given.restTime : rest, stints: n };
            if (staysUnder({ ...given, ...taken })) return taken;
          }
        }
        return [
          "No number of stints with rests of up to three hours stays under it. Ask for less time in all, or start with a colder bath.",
        ];
      },
    },
    {
      id: "shortest-rest",
      label: "Shortest rest for these stints",
      take: (given) => {
        for (let rest = 0; rest <= LONGEST_REST; rest += MINUTE)
          if (staysUnder({ ...given, restTime: rest })) return { restTime: rest };
        return [
          "No rest of up to three hours keeps these stints under it. Shorten the stints, or change the bath water for cold between them.",
        ];
      },
    },
  ],
  cautions: [
    {
      caution: "ceiling",
      when: ({ ceiling: top }, { peakLiquidTemperature: peak }) => (peak?.high ?? 0) > top,
      say: ({ ceiling: top }, { peakLiquidTemperature: peak, longestStint: longest }) => {
        const [value, high] = [peak?.value ?? 0, peak?.high ?? 0];
        const advice = phrase` From where you start, one stint may last ${amount(longest?.low ?? 0, stintTime)} to be sure; later ones start warmer.`;
        return value > top
          ? [
              ...phrase`The liquid goes to ${amount(value, ceiling)}, past your ceiling of ${amount(top, ceiling)}. Shorten the stints, rest longer, or start with a colder bath.`,
              ...advice,
            ]
          : [
              ...phrase`The liquid may pass your ceiling of ${amount(top, ceiling)}: up to ${amount(high, ceiling)} within what is uncertain. Watch the probe in the liquid.`,
              ...advice,
            ];
      },
    },
    {
      caution: "flammable",
      when: ({ solventMassFraction: w }, { peakLiquidTemperature: peak }) =>
        (peak?.high ?? 0) > flashesFrom(w),
      say: ({ solventMassFraction: w }, { peakLiquidTemperature: peak }) =>
        phrase`At up to ${amount(peak?.high ?? 0, ceiling)} this liquid may be above its flash point, which begins at ${amount(flashesFrom(w), ceiling)}: its vapour can catch fire beside the bath’s switch. Keep it colder, make it weaker, or keep it covered with no spark or flame in the room.`,
    },
    {
      caution: "scald-and-burns",
      when: ({ heaterOn: heater, heaterSetting: setting }, { peakLiquidTemperature: peak }) =>
        (peak?.high ?? 0) > SCALDS_FROM || (heater === "on" && setting > SCALDS_FROM),
      say: () => [
        "Water and glass get hot enough to scald. Lift the beaker with a dry cloth, and the lid away from your face.",
      ],
    },
    {
      caution: "electricity",
      when: ({ bathHeatCapacity: bath }) => bath < NO_BATH,
      say: () => [
        "This bath is all but empty. Never run it without water up to its mark, and never with spirit in the tank.",
      ],
    },
  ],
  sources: ["bath-self-heating-manuals", "plattes-2017", "common-practice"],
});

/** The results, each worked out when it is asked for: a draw looks at one of them a hundred thousand times. */
class Stints {
  readonly #given: Given;
  readonly #bench: HeatBench;
  readonly #end: NodeTemperatures;
  #whole: ReturnType<typeof peakLiquid> | undefined;

  constructor(given: Given) {
    this.#given = given;
    this.#bench = benchOf(given);
    this.#end = endOfStint(this.#bench, given.stintTime);
  }

  get endLiquidTemperature(): number {
    return this.#end.liquid;
  }
  get endBathTemperature(): number {
    return this.#end.bath;
  }
  get lag(): number {
    return this.#end.bath - this.#end.liquid;
  }
  get peakLiquidTemperature(): number {
    return this.#peak.temperature;
  }
  get peakTime(): number {
    return this.#peak.time;
  }
  get programmeTime(): number {
    const { stintTime: stint, restTime: rest, stints: count } = this.#given;
    return count * stint + (count - 1) * rest;
  }
  get timeToCeiling(): number | null {
    const { max } = PROGRAMME_LIMITS.stintTime;
    const running = heatProgramme({ ...this.#bench, stintTime: max, ...ONE_STINT });
    return firstTimeAbove(running, this.#given.ceiling);
  }
  get longestStint(): number {
    return longestStint(this.#bench, this.#given.ceiling, LONGEST) ?? LONGEST;
  }
  get restNeeded(): number | null {
    return restNeeded({ ...this.#bench, start: this.#end }, this.#given.liquidTemperature);
  }
  get steadyLiquidTemperature(): number | null {
    return steadyOf(this.#bench)?.liquid ?? null;
  }
  get steadyBathTemperature(): number | null {
    return steadyOf(this.#bench)?.bath ?? null;
  }
  get pooledRate(): number {
    const { powerToLiquid: p, powerToBath: q } = this.#given;
    return (p + q) / (this.#given.liquidHeatCapacity + this.#given.bathHeatCapacity);
  }
  get settlingTime(): number {
    const { liquidHeatCapacity: liquid, bathHeatCapacity: bath } = this.#given;
    return (liquid * bath) / (liquid + bath) / this.#given.exchangeConductance;
  }
  get settledLag(): number {
    const { powerToLiquid: p, powerToBath: q } = this.#given;
    const { liquidHeatCapacity: liquid, bathHeatCapacity: bath } = this.#given;
    return (q / bath - p / liquid) * this.settlingTime;
  }
  get #peak(): ReturnType<typeof peakLiquid> {
    return (this.#whole ??= peakLiquid(programmeOf(this.#given, FOLLOWED)));
  }
}

function benchOf(given: Given): HeatBench {
  const { ceiling: top, liquidTemperature: start, heaterSetting: setting } = given;
  if (start >= top)
    throw new RefusedError(
      "ceiling",
      phrase`Your liquid starts at ${amount(start, liquidTemperature)}: the ceiling must lie above that. Raise it, or cool the liquid first.`,
    );
  if (given.heaterOn === "on" && setting > top)
    throw new RefusedError(
      "heaterSetting",
      phrase`A heater set to ${amount(setting, heaterSetting)} takes the liquid past your ceiling of ${amount(top, ceiling)}, whatever the ultrasound does. Set it lower, raise the ceiling for this stage, or switch the heater off.`,
    );
  return {
    nodes: {
      liquidHeatCapacity: given.liquidHeatCapacity,
      bathHeatCapacity: given.bathHeatCapacity,
      exchangeConductance: given.exchangeConductance,
      liquidLossConductance: given.liquidLossConductance,
      bathLossConductance: given.bathLossConductance,
      roomTemperature: given.roomTemperature,
    },
    start: { liquid: start, bath: given.bathTemperature },
    sonication: { liquid: given.powerToLiquid, bath: given.powerToBath },
    heater: { power: given.heaterPower, setting, on: given.heaterOn === "on" },
  };
}

function programmeOf(given: Given, coolDown: number): readonly HeatPiece[] {
  const { stintTime: stint, restTime: rest, stints: count } = given;
  return heatProgramme({
    ...benchOf(given),
    stintTime: stint,
    restTime: rest,
    stints: count,
    coolDown,
  });
}

function staysUnder(given: Given): boolean {
  return peakLiquid(programmeOf(given, FOLLOWED)).temperature <= given.ceiling;
}

/** Where both come to rest with the ultrasound on, thermostat included; null where they rise for ever. */
function steadyOf({ nodes, sonication: powers, heater }: HeatBench): NodeTemperatures | null {
  const without = steadyTemperatures(nodes, powers);
  if (!heater.on || heater.power === 0 || without === null || without.bath >= heater.setting)
    return without;
  const full = steadyTemperatures(nodes, {
    liquid: powers.liquid,
    bath: powers.bath + heater.power,
  });
  if (full !== null && full.bath <= heater.setting) return full;
  // The thermostat holds the bath, and the liquid settles between it and the room.
  const { exchangeConductance: g, liquidLossConductance: loss, roomTemperature: room } = nodes;
  return {
    bath: heater.setting,
    liquid: (powers.liquid + g * heater.setting + loss * room) / (g + loss),
  };
}

/** Where to draw a programme: every switching, and points between. */
function timesOf(pieces: readonly HeatPiece[], count = POINTS): readonly number[] {
  const total = endOf(pieces);
  const even = Array.from({ length: count + 1 }, (_, i) => (total * i) / count);
  const joints = pieces.map(({ start }) => start);
  return [...new Set([...even, ...joints])].sort((a, b) => a - b);
}

const POINTS = 90;

function endOf(pieces: readonly HeatPiece[]): number {
  const last = pieces.at(-1) as HeatPiece;
  return last.start + last.duration;
}

/** A sum of times may pass the end by a rounding. */
function stateAt(pieces: readonly HeatPiece[], time: number): NodeTemperatures {
  return programmeAt(pieces, Math.min(time, endOf(pieces)));
}

/** The liquid's curve, or nothing beside a refusal such as a start at the ceiling. */
function liquidCurve(given: Given): ((time: number) => number) | undefined {
  try {
    const pieces = programmeOf(given, DRAWN);
    return (time) => stateAt(pieces, time).liquid;
  } catch (error) {
    if (error instanceof RefusedError) return undefined;
    throw error;
  }
}

/** One row for each stint, rest and the time after. */
function stagesOf(pieces: readonly HeatPiece[]): Rows {
  const stages = new Map<string, HeatPiece[]>();
  for (const piece of pieces) {
    const key = `${piece.stage} ${piece.stint}`;
    stages.set(key, [...(stages.get(key) ?? []), piece]);
  }
  return [...stages.values()].map((own) => {
    const [first, last] = [own[0] as HeatPiece, own.at(-1) as HeatPiece];
    const end = last.phase.at(last.duration);
    const kind = first.stage === "stint" ? 0 : first.stage === "rest" ? 1 : 2;
    const lasts = last.start + last.duration - first.start;
    const peak = peakLiquid(own).temperature;
    return [kind, first.stint, first.start, lasts, end.liquid, end.bath, peak];
  });
}

function domainTop(points: readonly (readonly [number, number])[]): number {
  return Math.max(MINUTE, ...points.map(([, y]) => y));
}
