import { randomLcg, randomNormal } from "d3-random";

/** A day's form as factors of what was tested; athletes by their place in the team. */
export interface Chance {
  /** On capacity and on hold time, for a subject's number. */
  ability(place: number, subject: number): number;
  /** On recovery, where no test tells it. */
  recovery(place: number, subject: number): number;
  /** On cycle time, all day. */
  cycle(place: number): number;
  /** On cycle time in an athlete's nth set. */
  set(place: number, nth: number): number;
  /** On the nth handover. */
  handover(nth: number): number;
  /** Of the tries of two athletes in step, the share lost to no-reps beyond what the model has for them; none where nobody asks. */
  lost?(place: number, partner: number): number;
}

/**
 * Chance, as factors around 1, log-normal: how one draw of a day differs from the expected one. Every factor hangs on
 * the draw, the athlete and what it is for, not on the plan: two plans of the same seed meet the same days (common
 * random numbers), so that their difference is the plans'.
 */
export class Draw implements Chance {
  private at = 0;

  constructor(private readonly seed: number) {}

  /** Goes to a draw, counted from 0. */
  go(at: number): void {
    this.at = at;
  }

  /** On capacity and on hold time: the form of the day of the athlete at that place in the team, and the error of the test. */
  ability(place: number, subject: number): number {
    return Math.exp(spread.form * this.normal(place) + spread.test * this.normal(mixed(subject) + place));
  }

  /** On a recovery that nobody tested: what the athlete is like, not the day; the same for every plan all the same. */
  recovery(place: number, subject: number): number {
    return Math.exp(spread.recovery * this.normal(mixed(subject ^ 0x5bd1_e995) + place));
  }

  /** On cycle time: the form of the day. The same chance as on capacity, the other way round: a good day is both. */
  cycle(place: number): number {
    return Math.exp(-spread.cycle * this.normal(place));
  }

  /** On cycle time in an athlete's nth set. */
  set(place: number, nth: number): number {
    return paces[this.any((place + 1) * 0x10001 + nth)] ?? 1;
  }

  /** On the nth handover. */
  handover(nth: number): number {
    return changes[this.any(0x7000_0001 + nth)] ?? 1;
  }

  private normal(key: number): number {
    return normals[this.any(key)] ?? 0;
  }

  /** Where in the tables a key's chance of this draw stands. */
  private any(key: number): number {
    return mixed(mixed(key ^ this.seed) + this.at) & (normals.length - 1);
  }
}

/** A chance with more, or less, of some of it: factors on ability and recovery, tries lost in step. */
export function altered(
  draw: Chance,
  { ability = () => 1, recovery = () => 1, lost }: Partial<Pick<Chance, "ability" | "recovery" | "lost">>,
): Chance {
  return {
    ability: (place, subject) => draw.ability(place, subject) * ability(place, subject),
    recovery: (place, subject) => draw.recovery(place, subject) * recovery(place, subject),
    cycle: (place) => draw.cycle(place),
    set: (place, nth) => draw.set(place, nth),
    handover: (nth) => draw.handover(nth),
    ...(lost && { lost }),
  };
}

/** A subject's name as the number that draws hang on. */
export function subjectNumber(name: string): number {
  let bits = 0;
  for (let at = 0; at < name.length; at += 1) bits = mixed(bits ^ name.charCodeAt(at));
  return bits;
}

/**
 * Standard deviations of the logarithm, as in the model's section on how sure. Assumed, but for recovery: the spread between
 * the people and groups of published sets against rest (`tests/published/`).
 */
export const spread = { form: 0.05, cycle: 0.02, test: 0.04, set: 0.03, handover: 0.2, recovery: 0.4 } as const;

/** A day worse than five in six: one deviation less form, all else as expected. */
export const poorDay: Chance = {
  ability: () => Math.exp(-Math.hypot(spread.form, spread.test)),
  recovery: () => 1,
  cycle: () => 1,
  set: () => 1,
  handover: () => 1,
};

/** Standard normal numbers to draw from: enough that no two of a plan's draws share a neighbour by habit. */
const normals = Float64Array.from({ length: 1 << 14 }, randomNormal.source(randomLcg(0.20260314))(0, 1));
/** The factors on a set's cycle time and on a handover that they come to: asked for at every turn of every day. */
const paces = normals.map((normal) => Math.exp(spread.set * normal));
const changes = normals.map((normal) => Math.exp(spread.handover * normal));

/** Scrambles 32 bits (the finalizer of MurmurHash3, Appleby, public domain). */
function mixed(bits: number): number {
  let x = bits | 0;
  x = Math.imul(x ^ (x >>> 16), 0x85ebca6b);
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
  return x ^ (x >>> 16);
}
