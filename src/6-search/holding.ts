import type { DraftTurn } from "./draft.js";

/** Who holds in some turns, changed in one way; null where the one that came up cannot be made. */
export function heldOtherwise(
  turns: readonly DraftTurn[],
  at: number,
  able: readonly string[],
  upTo: (count: number) => number,
): readonly DraftTurn[] | null {
  const turn = turns[at];
  if (!turn) return null;
  const kind = upTo(10);
  if (kind < 3) return swapped(turns, at, upTo(turns.length));
  if (kind < 5 && turns.length > 2) return heldRound(turns, able, upTo);
  const free = able.filter((name) => !turn.who.includes(name) && !turn.holders.includes(name));
  const next = free[upTo(free.length)];
  return next === undefined ? null : turns.with(at, { ...turn, holders: turn.holders.with(upTo(turn.holders.length), next) });
}

/** Two turns with each other's holders, where none of them works then. */
function swapped(turns: readonly DraftTurn[], at: number, other: number): readonly DraftTurn[] | null {
  const [turn, second] = [turns[at], turns[other]];
  if (!turn || !second || at === other) return null;
  const works = (name: string, { who }: DraftTurn): boolean => who.includes(name);
  if (second.holders.some((name) => works(name, turn)) || turn.holders.some((name) => works(name, second))) return null;
  return turns.with(at, { ...turn, holders: second.holders }).with(other, { ...second, holders: turn.holders });
}

/** As the hold goes round at random. */
function heldRound(turns: readonly DraftTurn[], able: readonly string[], upTo: (count: number) => number): readonly DraftTurn[] | null {
  const ways = placesFor(turns, able);
  const places = ways[upTo(ways.length)];
  return places ? heldAt(turns, able, places) : null;
}

/** Where several hold at once: as the hold goes round so that nobody's come soon after another. */
export function heldApart(turns: readonly DraftTurn[], able: readonly string[]): readonly DraftTurn[] {
  if ((turns[0]?.holders.length ?? 0) < 2) return turns;
  const ways = [turns, ...placesFor(turns, able).map((places) => heldAt(turns, able, places))];
  return ways.reduce((best, way) => (leastApart(way) > leastApart(best) ? way : best));
}

/** The ways in which holds go round as the work does: who works so many places later holds, the same places for all turns. */
function placesFor(turns: readonly DraftTurn[], able: readonly string[]): readonly (readonly number[])[] {
  const needed = turns[0]?.holders.length ?? 0;
  const free = Math.min(...turns.map(({ who }) => able.filter((name) => !who.includes(name)).length));
  const from = (first: number, many: number): readonly (readonly number[])[] =>
    many === 0
      ? [[]]
      : Array.from({ length: Math.max(0, free - first) }, (_, at) => first + at).flatMap((place) =>
          from(place + 1, many - 1).map((others) => [place, ...others]),
        );
  return from(0, needed);
}

function heldAt(turns: readonly DraftTurn[], able: readonly string[], places: readonly number[]): readonly DraftTurn[] {
  const ring = [...new Set([...turns.flatMap(({ who }) => who), ...able])];
  return turns.map((turn) => {
    const from = ring.indexOf(turn.who.at(-1) ?? "");
    const after = ring
      .map((_, step) => ring[(from + 1 + step) % ring.length] ?? "")
      .filter((name) => !turn.who.includes(name) && able.includes(name));
    return { ...turn, holders: places.map((place) => after[place] ?? "") };
  });
}

/** Of all who hold more than once, the fewest turns from one hold to the next, the repeat's end and begin being neighbours. */
function leastApart(turns: readonly DraftTurn[]): number {
  const names = new Set(turns.flatMap(({ holders }) => holders));
  return Math.min(
    ...[...names].map((name) => {
      const at = turns.flatMap(({ holders }, turn) => (holders.includes(name) ? [turn] : []));
      return Math.min(...at.map((turn, nth) => (at[nth + 1] ?? (at[0] ?? 0) + turns.length) - turn));
    }),
  );
}
