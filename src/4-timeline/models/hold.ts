/**
 * Holds: the three-compartment controller model of muscle fatigue (Xia & Frey Law 2008) with rest factor (Looft et al.
 * 2018), in closed form for a load that is held or not. The tired fraction MF runs from 0 (fresh) to 1.
 */
import type { Constants } from "../../3-plan/assumptions.js";

/** One athlete's hold. Rates in 1/s. */
export interface Hold {
  /** The load as a fraction of the athlete's maximum, 0…1. */
  readonly load: number;
  readonly fatigue: number;
  readonly recovery: number;
  /** Recovery off the hold, rest factor included. */
  readonly resting: number;
}

/** The hold of someone who, fresh, lasts `seconds`: TL = 1 / (1 + F·(1 − e^(−R·t))/R), from t = −ln(1 − R(1−TL)/(F·TL))/R. */
export function holdOf(seconds: number, constants: Constants): Hold {
  const fatigue = constants["hold fatigue"];
  const recovery = constants["hold recovery"];
  const ratio = (fatigue * (1 - Math.exp(-recovery * seconds))) / recovery;
  return { load: 1 / (1 + ratio), fatigue, recovery, resting: recovery * constants["hold rest factor"] };
}

/** Seconds from fresh to failure at a load; Infinity at or below R/(F+R). */
export function enduranceOf({ load, fatigue, recovery }: Hold): number {
  const part = (recovery * (1 - load)) / (fatigue * load);
  return part >= 1 ? Number.POSITIVE_INFINITY : -Math.log(1 - part) / recovery;
}

/** The tired fraction after holding for `seconds`: it nears F·TL/R at rate R. */
export function afterHolding(tired: number, { load, fatigue, recovery }: Hold, seconds: number): number {
  const settled = (fatigue * load) / recovery;
  return settled + (tired - settled) * Math.exp(-recovery * seconds);
}

export function afterResting(tired: number, { resting }: Hold, seconds: number): number {
  return tired * Math.exp(-resting * Math.max(0, seconds));
}

/** Seconds until the hold fails (MF = 1 − TL), from a tired fraction; 0 if it already has, Infinity if it never does. */
export function secondsLeft(tired: number, { load, fatigue, recovery }: Hold): number {
  const limit = 1 - load;
  const settled = (fatigue * load) / recovery;
  if (tired >= limit) return 0;
  return settled <= limit ? Number.POSITIVE_INFINITY : -Math.log((settled - limit) / (settled - tired)) / recovery;
}

/** Shortest rest in s after which the hold lasts `seconds` again; Infinity if it does not even fresh. */
export function restToHold(tired: number, hold: Hold, seconds: number): number {
  const settled = (hold.fatigue * hold.load) / hold.recovery;
  const allowed = settled - (settled - (1 - hold.load)) * Math.exp(hold.recovery * seconds);
  if (allowed <= 0) return Number.POSITIVE_INFINITY;
  return tired <= allowed ? 0 : Math.log(tired / allowed) / hold.resting;
}

/** Fraction of the hold that is left, 0…1. */
export function holdLeft(tired: number, { load }: Hold): number {
  return Math.min(1, Math.max(0, 1 - tired / (1 - load)));
}
