/** What ice takes up on its way to being water. */
export interface Ice {
  /** Of fusion at 0 °C, J/kg. */
  readonly latentHeat: number;
  /** Of ice, J/(kg K). */
  readonly heatCapacity: number;
  /** Of the water it gives, J/(kg K). */
  readonly meltHeatCapacity: number;
}

/**
 * Ordinary ice. Latent heat: CRC Handbook, 333.55 kJ/kg; textbooks have 333.4 to 334. seen. Heat capacity:
 * 2110 J/(kg K) at 0 °C, 4 % less at −18 °C. memory. Water: the mean from 0 to 40 °C, IAPWS SR6-08 (2011).
 * seen
 */
export const ICE: Ice = { latentHeat: 333_550, heatCapacity: 2110, meltHeatCapacity: 4187 };
