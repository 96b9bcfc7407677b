import { inRange } from "../errors.ts";
import { newtonBracketed } from "../numeric/root.ts";

/**
 * Where the model answers. It is exact for any temperature, so its range is only that of numbers: whether the
 * liquid would boil is for the caller to ask.
 */
export const TWO_NODE_LIMITS = {
  heatCapacity: { min: 1, max: 1e7, unit: "J/K" },
  conductance: { min: 0, max: 1e5, unit: "W/K" },
  power: { min: 0, max: 1e5, unit: "W" },
  temperature: { min: -273.15, max: 1e20, unit: "°C" },
  time: { min: 0, max: 1e12, unit: "s" },
} as const;

/** A liquid in a beaker, the bath it hangs in, and the room around both. */
export interface HeatNodes {
  /** of the liquid with its beaker, J/K */
  readonly liquidHeatCapacity: number;
  /** of the bath with its tank, J/K */
  readonly bathHeatCapacity: number;
  /** between liquid and bath, W/K; 0 where they do not touch */
  readonly exchangeConductance: number;
  /** from the liquid to the room, W/K */
  readonly liquidLossConductance: number;
  /** from the bath to the room, W/K */
  readonly bathLossConductance: number;
  /** °C */
  readonly roomTemperature: number;
}

/** Heat put into each, W. */
export interface HeatPowers {
  readonly liquid: number;
  readonly bath: number;
}

/** °C */
export interface NodeTemperatures {
  readonly liquid: number;
  readonly bath: number;
}

export type HeatNode = "liquid" | "bath";

/** Where the heat of a phase came from and went, J: input = lost + stored. */
export interface HeatBalance {
  readonly input: number;
  readonly lost: number;
  readonly stored: number;
}

/** The temperatures while nothing is switched, as closed forms of the time since the phase began. */
export interface HeatPhase {
  /**
   * @param time - s, 0 to 1e12
   * @throws OutOfRangeError outside that range, NaN included
   */
  at(time: number): NodeTemperatures;
  /**
   * When the temperature of a node turns from rising to falling or back: there is at most one such time.
   *
   * @returns s, > 0, or null where it never turns
   */
  turn(node: HeatNode): number | null;
  /**
   * First time at which a node comes to a temperature, crossing or touching it.
   *
   * @param temperature - °C, from −273.15; a start at it does not count as coming to it
   * @param within - the time looked at, 0 excluded and the end included, s; 0 to 1e12
   * @param way - count only a node that comes to it rising, or falling
   * @returns s, or null where it does not
   * @throws OutOfRangeError outside those ranges, NaN included
   */
  timeToReach(
    temperature: number,
    node: HeatNode,
    within: number,
    way?: "either" | "rising" | "falling",
  ): number | null;
  /**
   * @param time - since the phase began, s, 0 to 1e12
   * @throws OutOfRangeError outside that range, NaN included
   */
  energy(time: number): HeatBalance;
}

/**
 * Temperatures of a beaker and its bath after a time of constant power.
 *
 * C_ℓ dT_ℓ/dt = P_ℓ + G (T_b − T_ℓ) − G_ℓ (T_ℓ − T_a)
 * C_b dT_b/dt = P_b + G (T_ℓ − T_b) − G_b (T_b − T_a)
 *
 * @param nodes - heat capacities 1 to 1e7 J/K, conductances 0 to 1e5 W/K, room from −273.15 °C
 * @param powers - 0 to 1e5 W each
 * @param start - from −273.15 °C
 * @param time - s, 0 to 1e12
 * @returns °C
 * @throws OutOfRangeError outside those ranges, NaN included
 * @remarks Each node has one temperature throughout, and nothing boils, freezes or evaporates.
 * Source: heat balances of two lumped bodies, solved as {@link heatPhase}
 *
 * @example
 * const nodes = { liquidHeatCapacity: 2200, bathHeatCapacity: 10500, exchangeConductance: 8,
 *   liquidLossConductance: 0.4, bathLossConductance: 2.5, roomTemperature: 21 };
 * temperaturesAfter(nodes, { liquid: 12, bath: 60 }, { liquid: 24, bath: 23 }, 1800); // 30.85, 30.80 °C
 */
export function temperaturesAfter(
  nodes: HeatNodes,
  powers: HeatPowers,
  start: NodeTemperatures,
  time: number,
): NodeTemperatures {
  return heatPhase(nodes, powers, start).at(time);
}

/**
 * The closed form of {@link temperaturesAfter}, made once for many times.
 *
 * With y = √C (T − T_a) the balances become y′ = p − S y with a symmetric S. Its two eigenvectors are at
 * right angles whatever the conductances, zero and equal rates included, so each mode is driven apart from
 * the other and neither cancels: T = T₀ + a (1 − e^{−st})/s + b (1 − e^{−qt})/q, each quotient t for a rate
 * of 0.
 *
 * @param nodes - as {@link temperaturesAfter}
 * @param powers - 0 to 1e5 W each
 * @param start - from −273.15 °C
 * @returns the phase
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: linear algebra; Golub & Van Loan, Matrix Computations, 4th ed. (2013), section 8.5 for the
 * rotation. memory
 */
export function heatPhase(
  nodes: HeatNodes,
  powers: HeatPowers,
  start: NodeTemperatures,
): HeatPhase {
  checkNodes(nodes);
  checkPowers(powers);
  checkStart(start);
  const { exchangeConductance, liquidLossConductance, bathLossConductance } = nodes;
  const [rootLiquid, rootBath] = [
    Math.sqrt(nodes.liquidHeatCapacity),
    Math.sqrt(nodes.bathHeatCapacity),
  ];
  const liquidRate = (exchangeConductance + liquidLossConductance) / nodes.liquidHeatCapacity;
  const bathRate = (exchangeConductance + bathLossConductance) / nodes.bathHeatCapacity;
  const coupling = exchangeConductance / rootLiquid / rootBath;
  const halfDifference = (liquidRate - bathRate) / 2;
  const radius = Math.hypot(halfDifference, coupling);
  const fast = (liquidRate + bathRate) / 2 + radius;
  // As the quotient, not the difference, so that a small slow rate keeps its digits and no loss gives 0.
  const slow = fast > 0 ? determinant(nodes) / rootLiquid ** 2 / rootBath ** 2 / fast : 0;
  // The slow mode warms both. Its smaller component over its larger, at most 1, has no difference in it.
  const larger = Math.abs(halfDifference) + radius;
  const ratio = larger > 0 ? coupling / larger : 0;
  const cosine = 1 / Math.sqrt(1 + ratio * ratio);
  const [liquidShare, bathShare] =
    halfDifference >= 0 ? [ratio * cosine, cosine] : [cosine, ratio * cosine];

  const [liquidDrive, bathDrive] = [powers.liquid / rootLiquid, powers.bath / rootBath];
  const liquidExcess = rootLiquid * (start.liquid - nodes.roomTemperature);
  const bathExcess = rootBath * (start.bath - nodes.roomTemperature);
  const slowDrive =
    liquidShare * liquidDrive +
    bathShare * bathDrive -
    slow * (liquidShare * liquidExcess + bathShare * bathExcess);
  const fastDrive =
    bathShare * liquidDrive -
    liquidShare * bathDrive -
    fast * (bathShare * liquidExcess - liquidShare * bathExcess);
  return phaseOf({
    nodes,
    rates: { slow, fast, difference: 2 * radius },
    curves: {
      liquid: {
        start: start.liquid,
        slow: (slowDrive * liquidShare) / rootLiquid,
        fast: (fastDrive * bathShare) / rootLiquid,
      },
      bath: {
        start: start.bath,
        slow: (slowDrive * bathShare) / rootBath,
        fast: (-fastDrive * liquidShare) / rootBath,
      },
    },
    input: (time) => (powers.liquid + powers.bath) * time,
  });
}

/**
 * The same beaker in a bath that is held where it is, by a thermostat or because it is large.
 *
 * C_ℓ dT_ℓ/dt = P_ℓ + G (T_b − T_ℓ) − G_ℓ (T_ℓ − T_a), T_b constant
 *
 * @param nodes - as {@link temperaturesAfter}
 * @param liquidPower - 0 to 1e5 W
 * @param start - from −273.15 °C
 * @returns the phase; the input in its balance is what the liquid is given and what holds the bath, which
 * is negative where the bath has to be cooled
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: heat balance of one lumped body
 */
export function heldBathPhase(
  nodes: HeatNodes,
  liquidPower: number,
  start: NodeTemperatures,
): HeatPhase {
  checkNodes(nodes);
  checkPowers({ liquid: liquidPower, bath: 0 });
  checkStart(start);
  const { exchangeConductance, liquidLossConductance, bathLossConductance } = nodes;
  const flow =
    liquidPower +
    exchangeConductance * (start.bath - start.liquid) -
    liquidLossConductance * (start.liquid - nodes.roomTemperature);
  const rate = (exchangeConductance + liquidLossConductance) / nodes.liquidHeatCapacity;
  return phaseOf({
    nodes,
    rates: { slow: rate, fast: rate, difference: 0 },
    curves: {
      liquid: { start: start.liquid, slow: flow / nodes.liquidHeatCapacity, fast: 0 },
      bath: { start: start.bath, slow: 0, fast: 0 },
    },
    input: (time, liquidExcess, bathExcess) =>
      liquidPower * time +
      bathLossConductance * bathExcess -
      exchangeConductance * (liquidExcess - bathExcess),
  });
}

/**
 * Temperatures at which a beaker and its bath stay, where losses carry off all the power.
 *
 * @param nodes - as {@link temperaturesAfter}
 * @param powers - 0 to 1e5 W each
 * @returns °C, or null where one of the two has no way to lose heat
 * @throws OutOfRangeError outside those ranges, NaN included
 * Source: the balances of {@link temperaturesAfter} with no change, by Cramer's rule
 *
 * @example
 * steadyTemperatures(nodes, { liquid: 12, bath: 60 }); // 46.04, 45.79 °C with the nodes given there
 */
export function steadyTemperatures(nodes: HeatNodes, powers: HeatPowers): NodeTemperatures | null {
  checkNodes(nodes);
  checkPowers(powers);
  const { exchangeConductance, liquidLossConductance, bathLossConductance } = nodes;
  const exchanged = exchangeConductance * (powers.liquid + powers.bath);
  const scale = determinant(nodes);
  const liquid = nodes.roomTemperature + (exchanged + bathLossConductance * powers.liquid) / scale;
  const bath = nodes.roomTemperature + (exchanged + liquidLossConductance * powers.bath) / scale;
  // A determinant of 0, or one so small that the quotient overflows, is a node that keeps its heat.
  return Number.isFinite(liquid) && Number.isFinite(bath) ? { liquid, bath } : null;
}

/** Of the conductance matrix, (W/K)²: sums of products of what is not negative. */
function determinant(nodes: HeatNodes): number {
  const { exchangeConductance, liquidLossConductance, bathLossConductance } = nodes;
  return (
    exchangeConductance * (liquidLossConductance + bathLossConductance) +
    liquidLossConductance * bathLossConductance
  );
}

/** A start, °C, and what each mode adds to the rate of change at the start, K/s. */
interface Curve {
  readonly start: number;
  readonly slow: number;
  readonly fast: number;
}

interface PhaseParts {
  readonly nodes: HeatNodes;
  /** 1/s; the difference apart, because that of two near rates has few digits */
  readonly rates: { readonly slow: number; readonly fast: number; readonly difference: number };
  readonly curves: Readonly<Record<HeatNode, Curve>>;
  /** Heat put in, J, from the time and the time integrals of both temperatures above the room, K s. */
  readonly input: (time: number, liquidExcess: number, bathExcess: number) => number;
}

function phaseOf({ nodes, rates, curves, input }: PhaseParts): HeatPhase {
  const changes = (time: number): NodeTemperatures => {
    const [slowRise, fastRise] = [rise(rates.slow, time), rise(rates.fast, time)];
    return {
      liquid: curves.liquid.slow * slowRise + curves.liquid.fast * fastRise,
      bath: curves.bath.slow * slowRise + curves.bath.fast * fastRise,
    };
  };

  function at(time: number): NodeTemperatures {
    inRange("time", time, TWO_NODE_LIMITS.time);
    const { liquid, bath } = changes(time);
    return { liquid: curves.liquid.start + liquid, bath: curves.bath.start + bath };
  }

  function turn(node: HeatNode): number | null {
    const { slow, fast } = curves[node];
    // The slope is slow e^{−st} + fast e^{−qt}: 0 where e^{(q − s)t} = −fast/slow, later than 0 if over 1.
    if (!(slow * fast < 0 && Math.abs(fast) > Math.abs(slow))) return null;
    const time = Math.log1p(-(slow + fast) / slow) / rates.difference;
    return Number.isFinite(time) ? time : null;
  }

  function timeToReach(
    goal: number,
    node: HeatNode,
    within: number,
    way: "either" | "rising" | "falling" = "either",
  ): number | null {
    inRange("temperature", goal, TWO_NODE_LIMITS.temperature);
    inRange("time", within, TWO_NODE_LIMITS.time);
    const curve = curves[node];
    const excess = (time: number): readonly [number, number] => {
      const [slowRise, fastRise] = [rise(rates.slow, time), rise(rates.fast, time)];
      const slope =
        curve.slow * (1 - rates.slow * slowRise) + curve.fast * (1 - rates.fast * fastRise);
      // The temperature first, rounded as `at` rounds it, so that touching what `at` gave is not missed.
      return [curve.start + (curve.slow * slowRise + curve.fast * fastRise) - goal, slope];
    };
    const turned = turn(node);
    const ends = turned !== null && turned < within ? [0, turned, within] : [0, within];
    let low = 0;
    let [below, slope] = excess(low);
    // From end to end the curve is monotonic, so each stretch holds one crossing or none.
    for (const high of ends.slice(1)) {
      const [above, nextSlope] = excess(high);
      const rising = below < 0 && above >= 0;
      const falling = below > 0 && above <= 0;
      if ((rising && way !== "falling") || (falling && way !== "rising"))
        return newtonBracketed(excess, low, high, 0, low - below / slope);
      [low, below, slope] = [high, above, nextSlope];
    }
    return null;
  }

  function energy(time: number): HeatBalance {
    inRange("time", time, TWO_NODE_LIMITS.time);
    const { liquid, bath } = changes(time);
    const [slowSum, fastSum] = [riseIntegral(rates.slow, time), riseIntegral(rates.fast, time)];
    const sum = ({ start, slow, fast }: Curve): number =>
      (start - nodes.roomTemperature) * time + slow * slowSum + fast * fastSum;
    const [liquidExcess, bathExcess] = [sum(curves.liquid), sum(curves.bath)];
    return {
      input: input(time, liquidExcess, bathExcess),
      lost: nodes.liquidLossConductance * liquidExcess + nodes.bathLossConductance * bathExcess,
      stored: nodes.liquidHeatCapacity * liquid + nodes.bathHeatCapacity * bath,
    };
  }

  return { at, turn, timeToReach, energy };
}

/** (1 − e^{−kt})/k, which is t for a rate too small to tell from 0. */
function rise(rate: number, time: number): number {
  const exponent = rate * time;
  return exponent < 1e-17 ? time : -Math.expm1(-exponent) / rate;
}

/** Integral of {@link rise} from 0, by its series where the closed form would cancel. */
function riseIntegral(rate: number, time: number): number {
  const exponent = rate * time;
  if (exponent > 0.5) return (time - rise(rate, time)) / rate;
  let term = 0.5;
  let sum = term;
  for (let n = 3; Math.abs(term) > Number.EPSILON * sum; n++) {
    term *= -exponent / n;
    sum += term;
  }
  return sum * time * time;
}

function checkNodes(nodes: HeatNodes): void {
  const { heatCapacity, conductance, temperature } = TWO_NODE_LIMITS;
  inRange("liquidHeatCapacity", nodes.liquidHeatCapacity, heatCapacity);
  inRange("bathHeatCapacity", nodes.bathHeatCapacity, heatCapacity);
  inRange("exchangeConductance", nodes.exchangeConductance, conductance);
  inRange("liquidLossConductance", nodes.liquidLossConductance, conductance);
  inRange("bathLossConductance", nodes.bathLossConductance, conductance);
  inRange("roomTemperature", nodes.roomTemperature, temperature);
}

function checkPowers({ liquid, bath }: HeatPowers): void {
  inRange("liquidPower", liquid, TWO_NODE_LIMITS.power);
  inRange("bathPower", bath, TWO_NODE_LIMITS.power);
}

function checkStart({ liquid, bath }: NodeTemperatures): void {
  inRange("liquidTemperature", liquid, TWO_NODE_LIMITS.temperature);
  inRange("bathTemperature", bath, TWO_NODE_LIMITS.temperature);
}
