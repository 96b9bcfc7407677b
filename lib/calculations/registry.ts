import type { AnyCalculation } from "./calculation.ts";
import { Graph, linkOf } from "./graph.ts";

/** Every calculation by id, loaded on demand: a page fetches only what it shows and what that starts from. */
export const REGISTRY = {
  strength: async () => (await import("./strength.ts")).strength,
  hydrometer: async () => (await import("./hydrometer.ts")).hydrometer,
  "density-reading": async () => (await import("./density-reading.ts")).densityReading,
  dilution: async () => (await import("./dilution.ts")).dilution,
  mixing: async () => (await import("./mixing.ts")).mixing,
  weighing: async () => (await import("./weighing.ts")).weighing,
  spoon: async () => (await import("./spoon.ts")).spoon,
  recipe: async () => (await import("./recipe.ts")).recipe,
  composition: async () => (await import("./composition.ts")).composition,
  scaling: async () => (await import("./scaling.ts")).scaling,
  dissolving: async () => (await import("./dissolving.ts")).dissolving,
  acidity: async () => (await import("./acidity.ts")).acidity,
  "heat-capacity": async () => (await import("./heat-capacity.ts")).heatCapacity,
  "bath-heat": async () => (await import("./bath-heat.ts")).bathHeat,
  blending: async () => (await import("./blending.ts")).blending,
  sonication: async () => (await import("./sonication.ts")).sonication,
  calorimetry: async () => (await import("./calorimetry.ts")).calorimetry,
  "heat-fit": async () => (await import("./heat-fit.ts")).heatFit,
  surroundings: async () => (await import("./surroundings.ts")).surroundings,
  cooling: async () => (await import("./cooling.ts")).cooling,
  "bath-level": async () => (await import("./bath-level.ts")).bathLevel,
  hang: async () => (await import("./hang.ts")).hang,
  "stand-balance": async () => (await import("./stand-balance.ts")).standBalance,
  "vapour-pressure": async () => (await import("./vapour-pressure.ts")).vapourPressure,
  "stefan-tube": async () => (await import("./stefan-tube.ts")).stefanTube,
  evaporation: async () => (await import("./evaporation.ts")).evaporation,
  "flash-point": async () => (await import("./flash-point.ts")).flashPoint,
  "room-vapour": async () => (await import("./room-vapour.ts")).roomVapour,
  "thermal-stress": async () => (await import("./thermal-stress.ts")).thermalStress,
  "staged-cooling": async () => (await import("./staged-cooling.ts")).stagedCooling,
  flaw: async () => (await import("./flaw.ts")).flaw,
  bottling: async () => (await import("./bottling.ts")).bottling,
  serving: async () => (await import("./serving.ts")).serving,
  vesicle: async () => (await import("./vesicle.ts")).vesicle,
  entrapment: async () => (await import("./entrapment.ts")).entrapment,
  "bubble-rise": async () => (await import("./bubble-rise.ts")).bubbleRise,
  "bubble-resonance": async () => (await import("./bubble-resonance.ts")).bubbleResonance,
  skimming: async () => (await import("./skimming.ts")).skimming,
  "bottle-acid": async () => (await import("./bottle-acid.ts")).bottleAcid,
  "headspace-oxygen": async () => (await import("./headspace-oxygen.ts")).headspaceOxygen,
  "kinetic-temperature": async () => (await import("./kinetic-temperature.ts")).kineticTemperature,
  "storage-loss": async () => (await import("./storage-loss.ts")).storageLoss,
  evening: async () => (await import("./evening.ts")).evening,
  keeping: async () => (await import("./keeping.ts")).keeping,
} as const satisfies Record<string, () => Promise<AnyCalculation>>;

export type CalculationId = keyof typeof REGISTRY;
export const CALCULATION_IDS = Object.keys(REGISTRY) as readonly CalculationId[];

export function isCalculationId(id: string): id is CalculationId {
  return Object.hasOwn(REGISTRY, id);
}

/**
 * The graph of these calculations and of all they link to.
 * @throws TypeError listing the known ids, for a wrong one
 */
export async function loadGraph(ids: readonly string[] = CALCULATION_IDS): Promise<Graph> {
  const loaded = new Map<string, AnyCalculation>();
  const waiting = [...ids];
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    if (loaded.has(id)) continue;
    if (!isCalculationId(id))
      throw new TypeError(`no calculation "${id}"; there are ${CALCULATION_IDS.join(", ")}`);
    const calculation = await REGISTRY[id]();
    loaded.set(id, calculation);
    for (const input of Object.keys(calculation.inputs)) {
      const link = linkOf(calculation, input);
      if (link) waiting.push(link.calculation);
    }
  }
  return new Graph(loaded.values());
}
