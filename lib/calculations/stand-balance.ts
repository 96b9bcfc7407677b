import {
  counterweightFor,
  momentsAbout,
  tippingPush,
  type StandPart,
} from "../laws/stand-balance.ts";
import {
  amount,
  defineCalculation,
  phrase,
  RefusedError,
  type InputValues,
  type Result,
} from "./calculation.ts";
import {
  armLength,
  baseAhead,
  baseBehind,
  baseMass,
  clampArm,
  clampMass,
  counterweightArm,
  counterweightMass,
  load,
  pushHeight,
  rodMass,
  safetyFactor,
} from "./quantities/bath.ts";
import { COUNT, FORCE, LENGTH, TORQUE } from "./quantities/kinds.ts";

const moment: Omit<Result, "label" | "symbol"> = { ...TORQUE, bounds: { min: 0 } };
const factorShown: Omit<Result, "label" | "symbol"> = {
  ...COUNT,
  digits: 2,
  bounds: { min: 0 },
};
const lever: Omit<Result, "label" | "symbol"> = {
  ...LENGTH,
  units: ["cm", "mm", "in"],
  bounds: { min: 0 },
  minor: true,
};

/** Above this a factor is as good as none, and a curve leaves the picture. */
const HIGHEST = 8;

const inputs = {
  baseAhead,
  baseBehind,
  baseMass,
  rodMass,
  clampMass,
  clampArm,
  armLength,
  load,
  counterweightMass,
  counterweightArm,
  safetyFactor,
  pushHeight,
} as const;

type Given = InputValues<typeof inputs>;

export const standBalance = defineCalculation({
  id: "stand-balance",
  title: "Does the stand tip over?",
  summary: "What tips the stand, what holds it, the push it takes, and the counterweight it needs",
  inputs,
  links: { load: "hang.hungMass" },
  results: {
    tippingMoment: {
      ...moment,
      label: "Tips it forward",
      symbol: String.raw`M_\mathrm{tip}`,
      hint: "About the front edge of the base",
    },
    restoringMoment: {
      ...moment,
      label: "Holds it",
      symbol: String.raw`M_\mathrm{hold}`,
      hint: "About the same edge",
    },
    factor: {
      ...factorShown,
      label: "Safety factor",
      symbol: "S",
      hint: "Holds over tips: below 1 it falls. “None”: nothing hangs out past the base",
    },
    pushToTip: {
      ...FORCE,
      label: "Level push at the clamp that tips it",
      symbol: String.raw`F_\mathrm{push}`,
      hint: "Towards the bath, beaker out of the water; 10 N is the weight of one kilogram",
      bounds: { min: 0 },
    },
    counterweightNeeded: {
      dimension: "mass",
      units: ["kg", "g", "lb"],
      digits: 3,
      label: "Counterweight needed",
      symbol: String.raw`m_\mathrm{need}`,
      hint: "All of it, at the distance given, for the safety factor you want",
      bounds: { min: 0 },
    },
    factorBehind: {
      ...factorShown,
      label: "Safety factor backwards, beaker taken off",
      symbol: String.raw`S_\mathrm{back}`,
      hint: "“None”: the counterweight does not hang out past the back edge",
    },
    baseInside: { ...lever, label: "Base, inside the edge by", symbol: String.raw`l_\mathrm{b}` },
    loadOutside: { ...lever, label: "Beaker, out past the edge by", symbol: String.raw`l_\ell` },
    clampOutside: {
      ...lever,
      label: "Clamp, out past the edge by",
      symbol: String.raw`l_\mathrm{c}`,
    },
    loadInside: { ...lever, label: "Beaker, inside the edge by", symbol: String.raw`i_\ell` },
    clampInside: { ...lever, label: "Clamp, inside the edge by", symbol: String.raw`i_\mathrm{c}` },
    holdsWithout: {
      ...moment,
      label: "Holds it without the counterweight",
      symbol: "M_0",
      minor: true,
    },
  },
  compute: (given) => {
    if (given.counterweightArm < 0)
      throw new RefusedError("counterweightArm", [
        "There it hangs on the side of the bath and helps to tip the stand. Put it behind the rod, and type its distance as a positive number.",
      ]);
    if (given.clampArm > given.armLength)
      throw new RefusedError(
        "clampArm",
        phrase`The clamp would reach past the beaker, which hangs at ${amount(given.armLength, armLength)}: type less.`,
      );
    const { baseAhead: edge } = given;
    const stand = standOf(given);
    const beaker = { mass: given.load, ahead: given.armLength };
    const counterweight = { mass: given.counterweightMass, ahead: -given.counterweightArm };
    const without = momentsAbout(edge, [...stand, beaker]);
    const all = momentsAbout(edge, [...stand, beaker, counterweight]);
    const behind = momentsAbout(
      given.baseBehind,
      [...stand, counterweight].map(({ mass, ahead }) => ({ mass, ahead: -ahead })),
    );
    return {
      tippingMoment: all.tipping,
      restoringMoment: all.restoring,
      factor: ratio(all.restoring, all.tipping),
      pushToTip: tippingPush(all, given.pushHeight),
      counterweightNeeded: counterweightFor(
        without,
        edge + given.counterweightArm,
        given.safetyFactor,
      ),
      factorBehind: ratio(behind.restoring, behind.tipping),
      baseInside: (edge + given.baseBehind) / 2,
      loadOutside: Math.max(given.armLength - edge, 0),
      clampOutside: Math.max(given.clampArm - edge, 0),
      loadInside: Math.max(edge - given.armLength, 0),
      clampInside: Math.max(edge - given.clampArm, 0),
      holdsWithout: without.restoring,
    };
  },
  steps: [
    {
      result: "baseInside",
      tex: (slot) => String.raw`\frac{${slot("baseAhead")} + ${slot("baseBehind")}}{2}`,
    },
    {
      result: "loadOutside",
      tex: (slot) => String.raw`\max\left(${slot("armLength")} - ${slot("baseAhead")},\; 0\right)`,
    },
    {
      result: "tippingMoment",
      tex: (slot) =>
        String.raw`g\left(${slot("load")}\by ${slot("loadOutside")} + ${slot("clampMass")}\by ${slot("clampOutside")}\right)`,
    },
    {
      result: "holdsWithout",
      tex: (slot) =>
        String.raw`g\left(${slot("baseMass")}\by ${slot("baseInside")} + ${slot("rodMass")}\by ${slot("baseAhead")} + ${slot("clampMass")}\by ${slot("clampInside")} + ${slot("load")}\by ${slot("loadInside")}\right)`,
    },
    {
      result: "restoringMoment",
      tex: (slot) =>
        String.raw`${slot("holdsWithout")} + g\by ${slot("counterweightMass")}\by\left(${slot("baseAhead")} + ${slot("counterweightArm")}\right)`,
    },
    {
      result: "factor",
      tex: (slot) => String.raw`\frac{${slot("restoringMoment")}}{${slot("tippingMoment")}}`,
    },
    {
      result: "pushToTip",
      tex: (slot) =>
        String.raw`\max\left(\frac{${slot("restoringMoment")} - ${slot("tippingMoment")}}{${slot("pushHeight")}},\; 0\right)`,
    },
    {
      result: "counterweightNeeded",
      tex: (slot) =>
        String.raw`\max\left(\frac{${slot("safetyFactor")}\by ${slot("tippingMoment")} - ${slot("holdsWithout")}}{g\left(${slot("baseAhead")} + ${slot("counterweightArm")}\right)},\; 0\right)`,
    },
  ],
  figures: [
    {
      id: "factor",
      title: "How far out it may hang",
      caption:
        "Safety factor against the length of the arm. It falls steeply past the edge of the base: a few centimetres decide. Below 1 the stand falls by itself.",
      data: (given, run) => {
        const [from, to] = [given.baseAhead, Math.max(given.baseAhead * 3, given.armLength * 1.3)];
        const points = Array.from({ length: 81 }, (_, i) => from + ((to - from) * i) / 80).flatMap(
          (arm): [number, number][] => {
            const factor = run({ armLength: arm })?.["factor"]?.value;
            return factor === undefined || factor > HIGHEST ? [] : [[arm, factor]];
          },
        );
        const here = run({})?.["factor"]?.value;
        return {
          x: { label: "Beaker, from the rod", of: armLength, domain: [0, to] },
          y: { label: "Safety factor", of: factorShown, domain: [0, HIGHEST] },
          lines: [{ label: "factor", points }],
          rules: [
            { y: given.safetyFactor, label: "wanted" },
            { y: 1, label: "falls below" },
          ],
          marks:
            here === undefined || here > HIGHEST
              ? []
              : [
                  {
                    x: given.armLength,
                    y: here,
                    label: "yours",
                    drag: { input: "armLength", from: 0 },
                  },
                ],
        };
      },
    },
    {
      id: "moments",
      title: "Who holds and who tips",
      caption:
        "Each part’s moment about the front edge. The last bar is what tips; the others together have to be longer by the safety factor.",
      data: (given) => {
        const { baseAhead: edge } = given;
        const [base, rod, clamp] = standOf(given).map((part) => momentsAbout(edge, [part]));
        const counterweight = momentsAbout(edge, [
          { mass: given.counterweightMass, ahead: -given.counterweightArm },
        ]);
        const beaker = momentsAbout(edge, [{ mass: given.load, ahead: given.armLength }]);
        return {
          x: { label: "Moment about the front edge", of: TORQUE },
          bars: [
            { label: "base holds", value: base?.restoring ?? 0 },
            { label: "rod holds", value: rod?.restoring ?? 0 },
            { label: "clamp holds", value: clamp?.restoring ?? 0 },
            { label: "weight holds", value: counterweight.restoring },
            { label: "load tips", value: beaker.tipping + (clamp?.tipping ?? 0) },
          ],
        };
      },
    },
  ],
  offers: [
    {
      id: "counterweight",
      label: "Lay on the counterweight needed",
      take: (given) => {
        const without = momentsAbout(given.baseAhead, [
          ...standOf(given),
          { mass: given.load, ahead: given.armLength },
        ]);
        const needed = counterweightFor(
          without,
          given.baseAhead + Math.max(given.counterweightArm, 0),
          given.safetyFactor,
        );
        return needed <= counterweightMass.limits.max
          ? { counterweightMass: needed }
          : ["No weight that one could lift will do: shorten the arm, or take a wider base."];
      },
    },
  ],
  cautions: [
    {
      caution: "tipping",
      when: ({ safetyFactor: wanted }, { factor, factorBehind }) =>
        below(factor?.value, wanted) || below(factorBehind?.value, wanted),
      say: ({ safetyFactor: wanted }, { factor, factorBehind, counterweightNeeded }) => {
        const forward = factor?.value ?? Infinity;
        if (forward < 1)
          return phrase`The stand tips over. Shorten the arm, or lay ${amount(counterweightNeeded?.value ?? 0, counterweightMass)} on it where you said.`;
        if (below(forward, wanted))
          return phrase`The safety factor is ${amount(forward, factorShown)}, and you want ${amount(wanted, factorShown)}. Shorten the arm, or lay ${amount(counterweightNeeded?.value ?? 0, counterweightMass)} on it where you said.`;
        return phrase`Once the beaker is off, the counterweight pulls the stand backwards: the factor is only ${amount(factorBehind?.value ?? 0, factorShown)}. Lay the weight on the base, not behind it.`;
      },
    },
  ],
  sources: ["statics", "common-practice"],
});

/** Below by more than rounding: the counterweight needed gives the wanted factor itself. */
function below(factor = Infinity, wanted: number): boolean {
  return factor < wanted * (1 - 1e-9);
}

function standOf(given: Given): readonly StandPart[] {
  return [
    { mass: given.baseMass, ahead: (given.baseAhead - given.baseBehind) / 2 },
    { mass: given.rodMass, ahead: 0 },
    { mass: given.clampMass, ahead: given.clampArm },
  ];
}

/** `null` where nothing tips, or so little that the ratio says nothing. */
function ratio(restoring: number, tipping: number): number | null {
  return tipping > 1e-6 * restoring ? restoring / tipping : null;
}
