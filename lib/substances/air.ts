/**
 * Conventional density of air for weighing, kg/m³. Real air at sea level is from about 1.1 to 1.3.
 * Source: OIML D 28 and R 111, the convention behind every scale's calibration. seen
 */
export const AIR_DENSITY = 1.2;
