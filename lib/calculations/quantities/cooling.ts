import { choice, quantity } from "../calculation.ts";
import { CONVECTION_LIMITS } from "../../laws/convection.ts";
import { ICE_LIMITS } from "../../laws/ice-cooling.ts";
import { AREA, CONDUCTANCE, LENGTH, SHARE, SPECIFIC_HEAT, TEMPERATURE, VOLUME } from "./kinds.ts";

const probe = {
  absolute: 0.5,
  because: "a kitchen probe is good to half a degree or a degree (common practice, no source)",
} as const;

export const surroundings = choice("surroundings", {
  label: "What the beaker stands in",
  hint: "A rest between stints: where?",
  options: [
    { value: "air", label: "air of the room" },
    { value: "fridge", label: "fridge" },
    { value: "cold-water", label: "cold water" },
    { value: "iced-water", label: "iced water" },
  ],
  default: "cold-water",
});

export const stirring = choice("stirring", {
  label: "Liquid and water",
  hint: "Stirred means both: the liquid in the beaker and the water around it",
  options: [
    { value: "still", label: "left to stand" },
    { value: "stirred", label: "stirred now and then" },
  ],
  default: "stirred",
});

export const coldWaterTemperature = quantity("coldWaterTemperature", {
  label: "Cold water from the tap",
  symbol: String.raw`T_\mathrm{w}`,
  ...TEMPERATURE,
  limits: { min: 0, max: 40, unit: "°C" },
  default: 15,
  hint: "Let it run, then hold the probe in it",
  uncertainty: probe,
});

export const cooledArea = quantity("cooledArea", {
  label: "Glass that is wet on the inside",
  symbol: "A",
  ...AREA,
  limits: { min: 1e-3, max: 1, unit: "m²" },
  default: 0.028,
  hint: "Side and bottom: 3.14 × width × depth of the liquid + 0.79 × width². About 280 cm² for half a litre",
  uncertainty: { relative: 0.1, because: "a ruler, and how deep the beaker hangs" },
});

export const cooledWall = quantity("cooledWall", {
  label: "Thickness of the glass that is cooled",
  symbol: "d",
  ...LENGTH,
  digits: 2,
  limits: { ...CONVECTION_LIMITS.thickness, max: 0.02 },
  default: 1.5e-3,
  hint: "1 to 2 mm for a laboratory beaker, 3 to 5 mm for a jam jar",
});

export const filmDoubt = quantity("filmDoubt", {
  label: "Films at the glass, off by",
  symbol: String.raw`\delta_U`,
  ...SHARE,
  limits: { min: -0.9, max: 0.9, unit: "1" },
  default: 0,
  hint: "Share of the coefficient",
  hidden: true,
  uncertainty: {
    absolute: 0.25,
    because:
      "free convection alone gives 109 to 185 W/(m² K) between 1 and 20 K, and stirring and draughts differ",
  },
});

export const mixtureHeat = quantity("mixtureHeat", {
  label: "Specific heat of water and alcohol",
  symbol: "c_p",
  ...SPECIFIC_HEAT,
  limits: { min: 500, max: 6000, unit: "J/(kg K)" },
  default: 4280,
  hint: "About 4180 J/(kg K) for water, a little more for weak spirit",
  uncertainty: { relative: 0.02, because: "tables differ from one another by up to 4 %" },
});

export const coolStart = quantity("coolStart", {
  label: "Liquid when cooling starts",
  symbol: "T_0",
  ...TEMPERATURE,
  limits: ICE_LIMITS.temperature,
  default: 32,
  hint: "At the end of a stint or of blending, stirred",
  uncertainty: probe,
});

export const coolTarget = quantity("coolTarget", {
  label: "Cool down to",
  symbol: "T_1",
  ...TEMPERATURE,
  limits: ICE_LIMITS.temperature,
  default: 22,
  hint: "Where the next stint is to start",
});

export const aroundTemperature = quantity("aroundTemperature", {
  label: "Temperature around the beaker",
  symbol: String.raw`T_\mathrm{s}`,
  ...TEMPERATURE,
  limits: { min: -30, max: 100, unit: "°C" },
  default: 15,
  hint: "Taken as constant: change the water, or keep ice in it",
  uncertainty: { absolute: 1, because: "typed in: taken as known to a degree" },
});

export const coolConductance = quantity("coolConductance", {
  label: "Conductance from the beaker to what is around it",
  symbol: "G",
  ...CONDUCTANCE,
  limits: { min: 0.01, max: 100, unit: "W/K" },
  default: 8.6,
  hint: "Starts from what the beaker stands in; your own readings give a better one",
  uncertainty: { relative: 0.1, because: "typed in: taken as known to a tenth" },
});

export const iceTemperature = quantity("iceTemperature", {
  label: "Ice, when it goes in",
  symbol: String.raw`T_\mathrm{i}`,
  ...TEMPERATURE,
  limits: ICE_LIMITS.iceTemperature,
  default: -10,
  hint: "−18 °C straight from a freezer, 0 °C if it is wet and melting",
  uncertainty: { absolute: 5, because: "it warms on the bench (common practice, no source)" },
});

export const coolingWater = quantity("coolingWater", {
  label: "Water around the beaker",
  symbol: String.raw`V_\mathrm{w}`,
  ...VOLUME,
  units: ["L", "mL", "fl oz"],
  digits: 3,
  limits: { min: 0.1e-3, max: 0.05, unit: "m³" },
  default: 1.5e-3,
  hint: "In the pot or bowl, or in the bath",
  uncertainty: { relative: 0.1, because: "poured by eye (common practice, no source)" },
});
