/**
 * How each kind of number is shown: its dimension, the units a reader can choose (the first shown first),
 * and significant digits where no band says better.
 */
export const MASS = { dimension: "mass", units: ["g", "kg", "oz"], digits: 4 } as const;
/** What a scale is off by. */
export const SMALL_MASS = { dimension: "mass", units: ["g", "mg", "oz"], digits: 2 } as const;
export const VOLUME = { dimension: "volume", units: ["mL", "L", "fl oz"], digits: 4 } as const;
export const DENSITY = { dimension: "density", units: ["kg/m³", "g/mL"], digits: 5 } as const;
export const STRENGTH = { dimension: "strength", units: ["% vol", "US proof"], digits: 4 } as const;
export const MASS_FRACTION = { dimension: "massFraction", units: ["% mass"], digits: 4 } as const;
export const CONCENTRATION = {
  dimension: "concentration",
  units: ["g/L", "mg/mL", "g/100 mL"],
  digits: 4,
} as const;
export const SPECIFIC_VOLUME = {
  dimension: "specificVolume",
  units: ["mL/g"],
  digits: 3,
} as const;
export const TEMPERATURE = { dimension: "temperature", units: ["°C", "°F"], digits: 3 } as const;
export const RISE = { dimension: "temperatureDifference", units: ["K", "°F"], digits: 2 } as const;
export const SHARE = { dimension: "fraction", units: ["%"], digits: 2 } as const;
export const COUNT = { dimension: "count", units: ["1"], digits: 3 } as const;
export const TIME = { dimension: "time", units: ["min", "s", "h"], digits: 3 } as const;
export const LENGTH = { dimension: "length", units: ["mm", "cm", "in"], digits: 3 } as const;
export const FORCE = { dimension: "force", units: ["N"], digits: 3 } as const;
export const TORQUE = { dimension: "torque", units: ["N m"], digits: 3 } as const;
export const POWER = { dimension: "power", units: ["W"], digits: 3 } as const;
export const CONDUCTANCE = { dimension: "conductance", units: ["W/K"], digits: 2 } as const;
export const HEAT_CAPACITY = {
  dimension: "heatCapacity",
  units: ["J/K", "kJ/K"],
  digits: 4,
} as const;
export const SPECIFIC_HEAT = {
  dimension: "specificHeat",
  units: ["J/(kg K)", "kJ/(kg K)"],
  digits: 4,
} as const;
export const STRESS = { dimension: "pressure", units: ["MPa"], digits: 3 } as const;
export const PRESSURE = { dimension: "pressure", units: ["kPa", "hPa", "Pa"], digits: 3 } as const;
export const AREA = { dimension: "area", units: ["cm²"], digits: 3 } as const;
export const SPEED = { dimension: "speed", units: ["m/s", "cm/s"], digits: 2 } as const;
export const RATE = { dimension: "rate", units: ["h⁻¹"], digits: 2 } as const;
export const DIFFUSIVITY = {
  dimension: "diffusivity",
  units: ["cm²/s", "m²/s"],
  digits: 3,
} as const;
export const ROOM_VOLUME = { dimension: "volume", units: ["m³"], digits: 3 } as const;
