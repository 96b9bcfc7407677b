import { ADIABATIC_EXPONENT, resonance } from "../laws/bubble.ts";
import { STANDARD_GRAVITY } from "../laws/gravity.ts";
import { defineCalculation, type Result } from "./calculation.ts";
import { aeratedDensity, BUBBLE_WIDTH, bubbleDepth, soundFrequency } from "./quantities/bubbles.ts";
import { COUNT, PRESSURE } from "./quantities/kinds.ts";
import { airPressure } from "./quantities/vapour.ts";

const size: Omit<Result, "label" | "symbol"> = {
  ...BUBBLE_WIDTH,
  digits: 2,
  bounds: { min: 0 },
};

export const bubbleResonance = defineCalculation({
  id: "bubble-resonance",
  title: "Which bubbles swing with the bath",
  summary: "Radius of the bubbles that swing in time with a bath’s sound",
  inputs: {
    frequency: soundFrequency,
    pressure: airPressure,
    liquidDensity: aeratedDensity,
    depth: bubbleDepth,
  },
  links: { liquidDensity: "recipe.density" },
  results: {
    resonanceRadius: {
      ...size,
      label: "Radius that swings in time",
      symbol: String.raw`R_0`,
      hint: "Low end: the gas keeps the liquid’s temperature; high end: it keeps its heat, in clean water",
    },
    resonanceDiameter: { ...size, label: "Width of that bubble", symbol: "d_0" },
    polytropicExponent: {
      ...COUNT,
      digits: 2,
      label: "Stiffness of air that keeps its heat",
      symbol: String.raw`\kappa`,
      minor: true,
    },
    localPressure: {
      ...PRESSURE,
      digits: 4,
      label: "Pressure at that depth",
      symbol: "p",
      minor: true,
    },
  },
  compute: ({ frequency, pressure, liquidDensity, depth }) => {
    const radius = resonance({ frequency, pressure, liquidDensity, depth });
    return {
      resonanceRadius: radius,
      resonanceDiameter: {
        value: 2 * radius.value,
        low: 2 * radius.low,
        high: 2 * radius.high,
      },
      polytropicExponent: ADIABATIC_EXPONENT,
      localPressure: pressure + liquidDensity * STANDARD_GRAVITY * depth,
    };
  },
  steps: [
    {
      result: "localPressure",
      tex: (slot) =>
        String.raw`${slot("pressure")} + ${slot("liquidDensity")}\by g\by ${slot("depth")}`,
    },
    {
      result: "resonanceRadius",
      tex: (slot) =>
        String.raw`\frac{1}{2\pi\by ${slot("frequency")}}\by\sqrt{\frac{3\by ${slot("polytropicExponent")}\by ${slot("localPressure")}}{${slot("liquidDensity")}}}`,
    },
    {
      result: "resonanceDiameter",
      tex: (slot) => String.raw`2\by ${slot("resonanceRadius")}`,
    },
  ],
  sources: ["minnaert-1933", "leighton-1994"],
});
