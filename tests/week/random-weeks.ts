import type { Hour, OrderProblem, Try } from "../../src/6-search/order.js";

/** Weeks made by chance: three to five events, five to seven days, some with a second try, days off, two a day. */
export function randomWeek(seed: number): OrderProblem {
  let state = seed * 2_654_435_761 + 12_345;
  const chance = (): number => {
    state = (Math.imul(state ^ (state >>> 15), 0x2c1b3c6d) + 0x9e3779b9) | 0;
    return ((state ^ (state >>> 12)) >>> 0) / 2 ** 32;
  };
  const whole = (least: number, most: number): number => least + Math.floor(chance() * (most - least + 1));
  const days = whole(5, 7);
  const events = whole(3, 5);
  const day = 86_400;
  const hoursOf = (): readonly Hour[] => {
    const hour = whole(8, 19);
    const closed = whole(0, days - 1);
    return Array.from({ length: days }, (_, at) => at)
      .filter((at) => chance() > 0.1 && at !== closed)
      .map((at) => ({ date: `2026-03-${10 + at}`, time: `${hour}:00`, startS: at * day + hour * 3600 }));
  };
  const tries: Try[] = Array.from({ length: events }, (_, at) => ({
    session: { at, event: `E${at}`, again: false },
    weight: chance() < 0.3 ? 2 : 1,
    lastsS: whole(300, 1500),
    hours: hoursOf(),
  }));
  if (seed % 2 === 0)
    tries.push({ session: { at: events, event: "E0", again: true }, weight: 1, lastsS: tries[0]?.lastsS ?? 600, hours: hoursOf() });
  const halfLivesS = [18, 36, 48, 96].map((hours) => hours * 3600);
  const takes = tries.map(() => tries.map(() => halfLivesS.map(() => (chance() < 0.4 ? 0 : chance() * 0.1))));
  return { tries, takes, halfLivesS, rested: null, mostADay: whole(1, 2), gapS: chance() < 0.5 ? 0 : 20 * 3600 };
}
