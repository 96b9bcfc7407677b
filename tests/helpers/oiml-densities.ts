/**
 * Density at 20 °C, kg/m³, by volume strength. OIML R 22 (1975), two decimals, as reprinted in a leaflet. seen
 */
export const OIML_DENSITIES = [
  [0.1, 984.71],
  [0.3, 962.21],
  [0.4, 948.05],
  [0.6, 909.11],
  [0.7, 885.56],
  [0.9, 829.18],
  [0.91, 825.83],
  [0.93, 818.85],
  [0.95, 811.38],
  [0.96, 807.42],
  [0.98, 798.9],
  [1, 789.24],
] as const;
