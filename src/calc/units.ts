/**
 * The core counts in SI with absolute pressure. What must not be mixed has a type of its own; the
 * factors below are exact by definition unless marked.
 *
 * Source: NIST Special Publication 811 (2008), appendix B; standard atmosphere and standard gravity
 * from the same, sections 4 and B.8.
 */
export type AbsolutePa = number & { readonly kind: "pressure, absolute, Pa" };
export type Kelvin = number & { readonly kind: "temperature, K" };
export type AlongHoleM = number & { readonly kind: "depth along hole, m" };
export type VerticalM = number & { readonly kind: "true vertical depth, m" };

export const M_PER_FT = 0.3048;
export const M_PER_IN = 0.0254;
export const KG_PER_LB = 0.45359237;
/** Standard gravity, m/s2. */
export const GRAVITY = 9.80665;
export const N_PER_LBF = KG_PER_LB * GRAVITY;
export const PA_PER_PSI = N_PER_LBF / (M_PER_IN * M_PER_IN);
export const KG_M3_PER_LB_FT3 = KG_PER_LB / M_PER_FT ** 3;
export const RAD_PER_DEG = Math.PI / 180;
/** Standard atmosphere, Pa (14.696 psia to the digits of the trade). */
export const STANDARD_ATMOSPHERE = 101325 as AbsolutePa;
/** Molar gas constant, J/(mol K). Source: CODATA 2018, exact since the SI of 2019. */
export const GAS_CONSTANT = 8.31446261815324;
/** Molar mass of air that ideal-gas gravity refers to, kg/mol. Source: GPA 2172 / AGA 8 usage, 28.9625 g/mol. */
export const AIR_MOLAR_MASS = 0.0289625;

export const absolutePa = (pascal: number): AbsolutePa => pascal as AbsolutePa;
export const kelvin = (value: number): Kelvin => value as Kelvin;
export const alongHoleM = (metre: number): AlongHoleM => metre as AlongHoleM;
export const verticalM = (metre: number): VerticalM => metre as VerticalM;

export const fromPsia = (psia: number): AbsolutePa => (psia * PA_PER_PSI) as AbsolutePa;
export const toPsia = (pressure: AbsolutePa): number => pressure / PA_PER_PSI;
/** @param site absolute pressure of the air the gauge stands in, Pa */
export const fromPsig = (gauge: number, site: AbsolutePa): AbsolutePa =>
  (gauge * PA_PER_PSI + site) as AbsolutePa;
export const toPsig = (pressure: AbsolutePa, site: AbsolutePa): number =>
  (pressure - site) / PA_PER_PSI;
export const fromDegF = (degF: number): Kelvin => ((degF + 459.67) / 1.8) as Kelvin;
export const toDegF = (temperature: Kelvin): number => temperature * 1.8 - 459.67;
export const toDegR = (temperature: Kelvin): number => temperature * 1.8;
export const fromFeetVertical = (feet: number): VerticalM => (feet * M_PER_FT) as VerticalM;
export const fromFeetAlongHole = (feet: number): AlongHoleM => (feet * M_PER_FT) as AlongHoleM;
export const fromInches = (inches: number): number => inches * M_PER_IN;
