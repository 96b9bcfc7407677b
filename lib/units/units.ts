/** One unit a reader can choose. SI value = shown × factor + offset. */
export interface Unit {
  /** What the page shows after the number. */
  readonly symbol: string;
  /** What a screen reader or a hint says. */
  readonly name: string;
  /** Other spellings that a typed field accepts, lower case, spaces removed. */
  readonly aliases?: readonly string[];
  readonly factor: number;
  readonly offset?: number;
}

/**
 * Units by dimension. The first of each dimension is its SI unit (fractions: 1).
 * Factors of US customary units are exact by definition (NIST Handbook 44, Appendix C). memory
 */
export const UNITS = {
  fraction: {
    "1": { symbol: "", name: "as a fraction", factor: 1 },
    "%": { symbol: "%", name: "per cent", aliases: ["percent", "pct"], factor: 0.01 },
    ppm: { symbol: "ppm", name: "parts per million", factor: 1e-6 },
  },
  /** For a result that is itself counted in millionths. */
  parts: { ppm: { symbol: "ppm", name: "parts per million", factor: 1 } },
  strength: {
    "1": { symbol: "", name: "as a fraction", factor: 1 },
    "% vol": {
      symbol: "% vol",
      name: "per cent alcohol by volume",
      aliases: ["%", "%vol.", "vol%", "%abv", "abv", "%v/v", "°gl", "percentvol"],
      factor: 0.01,
    },
    "US proof": {
      symbol: "US proof",
      name: "degrees US proof, twice the per cent by volume",
      aliases: ["°usproof", "proofus", "usproof.", "u.s.proof", "americanproof"],
      factor: 0.005,
    },
  },
  proof: { "1": { symbol: "°", name: "degrees proof", aliases: ["°", "proof"], factor: 1 } },
  massFraction: {
    "1": { symbol: "", name: "as a fraction", factor: 1 },
    "% mass": {
      symbol: "% mass",
      name: "per cent by mass",
      aliases: ["%", "%w/w", "%m/m", "%weight", "mass%"],
      factor: 0.01,
    },
  },
  massRatio: {
    "kg/kg": { symbol: "kg/kg", name: "kilograms per kilogram", factor: 1 },
    "g/100 g": {
      symbol: "g/100 g",
      name: "grams per hundred grams",
      aliases: ["g/100g", "gper100g", "gin100g"],
      factor: 0.01,
    },
    "g/kg": { symbol: "g/kg", name: "grams per kilogram", factor: 1e-3 },
  },
  mass: {
    kg: { symbol: "kg", name: "kilograms", aliases: ["kilogram", "kilograms"], factor: 1 },
    g: { symbol: "g", name: "grams", aliases: ["gram", "grams", "gr"], factor: 1e-3 },
    mg: { symbol: "mg", name: "milligrams", aliases: ["milligram", "milligrams"], factor: 1e-6 },
    oz: { symbol: "oz", name: "ounces", aliases: ["ounce", "ounces"], factor: 0.028349523125 },
    lb: { symbol: "lb", name: "pounds", aliases: ["lbs", "pound", "pounds"], factor: 0.45359237 },
  },
  volume: {
    "m³": { symbol: "m³", name: "cubic metres", aliases: ["m3"], factor: 1 },
    L: { symbol: "L", name: "litres", aliases: ["l", "litre", "litres", "liter"], factor: 1e-3 },
    mL: { symbol: "mL", name: "millilitres", aliases: ["ml", "cc", "cm3", "cm³"], factor: 1e-6 },
    "fl oz": {
      symbol: "fl oz",
      name: "US fluid ounces",
      aliases: ["usfloz", "floz.", "fl.oz"],
      factor: 29.5735295625e-6,
    },
    tsp: {
      symbol: "tsp",
      name: "metric teaspoons of 5 mL",
      aliases: ["teaspoon", "teaspoons"],
      factor: 5e-6,
    },
    tbsp: {
      symbol: "tbsp",
      name: "metric tablespoons of 15 mL",
      aliases: ["tablespoon", "tablespoons"],
      factor: 15e-6,
    },
    fL: { symbol: "fL", name: "femtolitres", factor: 1e-18 },
    aL: { symbol: "aL", name: "attolitres", factor: 1e-21 },
  },
  density: {
    "kg/m³": { symbol: "kg/m³", name: "kilograms per cubic metre", aliases: ["kg/m3"], factor: 1 },
    "g/mL": {
      symbol: "g/mL",
      name: "grams per millilitre",
      aliases: ["g/ml", "g/cm³", "g/cm3", "kg/l"],
      factor: 1000,
    },
  },
  concentration: {
    "kg/m³": { symbol: "kg/m³", name: "kilograms per cubic metre", aliases: ["kg/m3"], factor: 1 },
    "g/L": { symbol: "g/L", name: "grams per litre", aliases: ["g/l"], factor: 1 },
    "mg/L": { symbol: "mg/L", name: "milligrams per litre", aliases: ["mg/l"], factor: 1e-3 },
    "mg/mL": { symbol: "mg/mL", name: "milligrams per millilitre", aliases: ["mg/ml"], factor: 1 },
    "g/100 mL": {
      symbol: "g/100 mL",
      name: "grams per hundred millilitres",
      aliases: ["g/100ml", "%w/v"],
      factor: 10,
    },
  },
  specificVolume: {
    "m³/kg": { symbol: "m³/kg", name: "cubic metres per kilogram", aliases: ["m3/kg"], factor: 1 },
    "mL/g": {
      symbol: "mL/g",
      name: "millilitres per gram",
      aliases: ["ml/g", "cm³/g", "cm3/g", "l/kg"],
      factor: 1e-3,
    },
  },
  temperature: {
    "°C": { symbol: "°C", name: "degrees Celsius", aliases: ["c", "degc", "celsius"], factor: 1 },
    "°F": {
      symbol: "°F",
      name: "degrees Fahrenheit",
      aliases: ["f", "degf", "fahrenheit"],
      factor: 5 / 9,
      offset: -160 / 9,
    },
  },
  temperatureDifference: {
    K: { symbol: "K", name: "kelvins", aliases: ["k", "°c", "c"], factor: 1 },
    "°F": { symbol: "°F", name: "Fahrenheit degrees", aliases: ["f"], factor: 5 / 9 },
  },
  count: { "1": { symbol: "", name: "", factor: 1 } },
  time: {
    s: { symbol: "s", name: "seconds", aliases: ["sec", "second", "seconds"], factor: 1 },
    min: { symbol: "min", name: "minutes", aliases: ["m", "minute", "minutes"], factor: 60 },
    h: { symbol: "h", name: "hours", aliases: ["hr", "hrs", "hour", "hours"], factor: 3600 },
    d: { symbol: "d", name: "days", aliases: ["day", "days"], factor: 86_400 },
  },
  length: {
    m: { symbol: "m", name: "metres", aliases: ["metre", "metres", "meter"], factor: 1 },
    cm: { symbol: "cm", name: "centimetres", factor: 1e-2 },
    mm: { symbol: "mm", name: "millimetres", factor: 1e-3 },
    µm: { symbol: "µm", name: "micrometres", aliases: ["um", "μm", "micron"], factor: 1e-6 },
    nm: { symbol: "nm", name: "nanometres", factor: 1e-9 },
    in: { symbol: "in", name: "inches", aliases: ["inch", "inches", '"'], factor: 0.0254 },
  },
  speed: {
    "m/s": { symbol: "m/s", name: "metres per second", aliases: ["mps"], factor: 1 },
    "cm/s": { symbol: "cm/s", name: "centimetres per second", factor: 1e-2 },
    "mm/s": { symbol: "mm/s", name: "millimetres per second", factor: 1e-3 },
  },
  area: {
    "m²": { symbol: "m²", name: "square metres", aliases: ["m2"], factor: 1 },
    "cm²": { symbol: "cm²", name: "square centimetres", aliases: ["cm2"], factor: 1e-4 },
    "nm²": { symbol: "nm²", name: "square nanometres", aliases: ["nm2"], factor: 1e-18 },
  },
  energy: {
    J: { symbol: "J", name: "joules", aliases: ["joule", "joules"], factor: 1 },
    kJ: { symbol: "kJ", name: "kilojoules", factor: 1000 },
  },
  power: {
    W: { symbol: "W", name: "watts", aliases: ["watt", "watts"], factor: 1 },
    kW: { symbol: "kW", name: "kilowatts", factor: 1000 },
  },
  conductance: {
    "W/K": { symbol: "W/K", name: "watts per kelvin", aliases: ["w/°c"], factor: 1 },
  },
  heatCapacity: {
    "J/K": { symbol: "J/K", name: "joules per kelvin", aliases: ["j/°c"], factor: 1 },
    "kJ/K": { symbol: "kJ/K", name: "kilojoules per kelvin", aliases: ["kj/°c"], factor: 1000 },
  },
  specificHeat: {
    "J/(kg K)": {
      symbol: "J/(kg K)",
      name: "joules per kilogram and kelvin",
      aliases: ["j/kg/k", "j/(kg·k)", "j/kgk"],
      factor: 1,
    },
    "kJ/(kg K)": {
      symbol: "kJ/(kg K)",
      name: "kilojoules per kilogram and kelvin",
      aliases: ["kj/kg/k", "kj/(kg·k)", "j/(gk)", "j/g/k"],
      factor: 1000,
    },
  },
  heatTransferCoefficient: {
    "W/(m² K)": {
      symbol: "W/(m² K)",
      name: "watts per square metre and kelvin",
      aliases: ["w/(m2k)", "w/m2k", "w/m²k", "w/m²/k"],
      factor: 1,
    },
  },
  warmingRate: {
    "K/s": { symbol: "K/s", name: "kelvins per second", factor: 1 },
    "K/min": { symbol: "K/min", name: "kelvins per minute", factor: 1 / 60 },
    "K/h": { symbol: "K/h", name: "kelvins per hour", factor: 1 / 3600 },
  },
  pressure: {
    Pa: { symbol: "Pa", name: "pascals", aliases: ["pascal"], factor: 1 },
    hPa: { symbol: "hPa", name: "hectopascals", aliases: ["mbar"], factor: 100 },
    kPa: { symbol: "kPa", name: "kilopascals", factor: 1000 },
    MPa: { symbol: "MPa", name: "megapascals", aliases: ["n/mm²", "n/mm2"], factor: 1e6 },
    GPa: { symbol: "GPa", name: "gigapascals", factor: 1e9 },
  },
  stressIntensity: {
    "Pa √m": { symbol: "Pa √m", name: "pascals root metre", factor: 1 },
    "MPa √m": { symbol: "MPa √m", name: "megapascals root metre", factor: 1e6 },
  },
  thermalConductivity: {
    "W/(m K)": {
      symbol: "W/(m K)",
      name: "watts per metre and kelvin",
      aliases: ["w/mk", "w/m/k"],
      factor: 1,
    },
  },
  expansion: {
    "K⁻¹": { symbol: "K⁻¹", name: "per kelvin", aliases: ["/k"], factor: 1 },
    "ppm/K": { symbol: "ppm/K", name: "millionths per kelvin", factor: 1e-6 },
  },
  rate: {
    "s⁻¹": { symbol: "s⁻¹", name: "per second", aliases: ["/s"], factor: 1 },
    "h⁻¹": { symbol: "h⁻¹", name: "per hour", aliases: ["/h", "perhour"], factor: 1 / 3600 },
    "d⁻¹": { symbol: "d⁻¹", name: "per day", aliases: ["/d", "perday"], factor: 1 / 86_400 },
  },
  frequency: {
    Hz: { symbol: "Hz", name: "hertz", factor: 1 },
    kHz: { symbol: "kHz", name: "kilohertz", factor: 1000 },
  },
  viscosity: {
    "Pa s": { symbol: "Pa s", name: "pascal seconds", aliases: ["pa·s"], factor: 1 },
    "mPa s": {
      symbol: "mPa s",
      name: "millipascal seconds",
      aliases: ["mpa·s", "cp"],
      factor: 1e-3,
    },
  },
  diffusivity: {
    "m²/s": { symbol: "m²/s", name: "square metres per second", aliases: ["m2/s"], factor: 1 },
    "cm²/s": {
      symbol: "cm²/s",
      name: "square centimetres per second",
      aliases: ["cm2/s"],
      factor: 1e-4,
    },
  },
  amount: {
    mol: { symbol: "mol", name: "moles", aliases: ["mole", "moles"], factor: 1 },
    mmol: { symbol: "mmol", name: "millimoles", factor: 1e-3 },
    µmol: { symbol: "µmol", name: "micromoles", aliases: ["umol", "μmol"], factor: 1e-6 },
  },
  molarEnergy: {
    "J/mol": { symbol: "J/mol", name: "joules per mole", factor: 1 },
    "kJ/mol": { symbol: "kJ/mol", name: "kilojoules per mole", factor: 1000 },
  },
  molarMass: {
    "kg/mol": { symbol: "kg/mol", name: "kilograms per mole", factor: 1 },
    "g/mol": { symbol: "g/mol", name: "grams per mole", factor: 1e-3 },
  },
  molarConcentration: {
    "mol/m³": {
      symbol: "mol/m³",
      name: "moles per cubic metre",
      aliases: ["mol/m3"],
      factor: 1,
    },
    "mol/L": { symbol: "mol/L", name: "moles per litre", aliases: ["mol/l"], factor: 1000 },
    "mmol/L": { symbol: "mmol/L", name: "millimoles per litre", aliases: ["mmol/l"], factor: 1 },
  },
  molarVolume: {
    "m³/mol": {
      symbol: "m³/mol",
      name: "cubic metres per mole",
      aliases: ["m3/mol"],
      factor: 1,
    },
    "L/mol": { symbol: "L/mol", name: "litres per mole", aliases: ["l/mol"], factor: 1e-3 },
    "µL/µmol": {
      symbol: "µL/µmol",
      name: "microlitres per micromole",
      aliases: ["ul/umol", "μl/μmol"],
      factor: 1e-3,
    },
  },
  numberPerMass: {
    "kg⁻¹": { symbol: "kg⁻¹", name: "per kilogram", aliases: ["/kg"], factor: 1 },
    "ng⁻¹": { symbol: "ng⁻¹", name: "per nanogram", aliases: ["/ng"], factor: 1e12 },
  },
  molarFlux: {
    "mol/(m² s)": {
      symbol: "mol/(m² s)",
      name: "moles per square metre and second",
      aliases: ["mol/m2/s"],
      factor: 1,
    },
    "mmol/(m² s)": {
      symbol: "mmol/(m² s)",
      name: "millimoles per square metre and second",
      aliases: ["mmol/m2/s"],
      factor: 1e-3,
    },
  },
  massRate: {
    "kg/s": { symbol: "kg/s", name: "kilograms per second", factor: 1 },
    "g/h": { symbol: "g/h", name: "grams per hour", factor: 1e-3 / 3600 },
    "mg/h": { symbol: "mg/h", name: "milligrams per hour", factor: 1e-6 / 3600 },
  },
  force: { N: { symbol: "N", name: "newtons", aliases: ["newton"], factor: 1 } },
  torque: {
    "N m": { symbol: "N m", name: "newton metres", aliases: ["nm", "n·m"], factor: 1 },
  },
} as const satisfies Record<string, Record<string, Unit>>;

export type Dimension = keyof typeof UNITS;

/** A programmer's slip: a unit that the dimension does not have. */
export class UnknownUnitError extends TypeError {
  override name = "UnknownUnitError";
  constructor(dimension: Dimension, unit: string) {
    super(`${dimension} has no unit "${unit}"; it has ${Object.keys(UNITS[dimension]).join(", ")}`);
  }
}

/**
 * The unit of that id.
 * @throws UnknownUnitError, listing what there is
 */
export function unitOf(dimension: Dimension, id: string): Unit {
  const units: Record<string, Unit> = UNITS[dimension];
  const unit = Object.hasOwn(units, id) ? units[id] : undefined;
  if (!unit) throw new UnknownUnitError(dimension, id);
  return unit;
}

/** The id of the SI unit of a dimension. */
export function siUnit(dimension: Dimension): string {
  return Object.keys(UNITS[dimension])[0] as string;
}

/** Shown value → SI value. */
export function toSI(shown: number, dimension: Dimension, unit: string): number {
  const { factor, offset = 0 } = unitOf(dimension, unit);
  return shown * factor + offset;
}

/** SI value → shown value; the inverse of {@link toSI} to 1e-12. */
export function fromSI(value: number, dimension: Dimension, unit: string): number {
  const { factor, offset = 0 } = unitOf(dimension, unit);
  return (value - offset) / factor;
}
