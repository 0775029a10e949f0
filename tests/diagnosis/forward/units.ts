/** Factors of this model's own, so that a slip in the application's units shows as a difference between the two. */
export const PSI = 6894.757;
export const FT = 0.3048;
export const INCH = 0.0254;
export const ATMOSPHERE = 101_325;
export const GRAVITY = 9.80665;
export const DAY = 86_400;
export const HOUR = 3600;
export const BARREL = 0.1589873;
/** 1,000 cubic feet */
export const MSCF = 28.31685;
export const fromFahrenheit = (degF: number) => (degF - 32) / 1.8 + 273.15;
/** density of gas of gravity 1 at 14.7 psia and 60 degF, kg/m3: 28.9625 g/mol × 101,353 Pa / (8.314463 × 288.706 K) */
export const STANDARD_AIR = 1.22286;
