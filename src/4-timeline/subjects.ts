import type { Ready } from "./ready.js";

/** One athlete's movement or hold in a plan, as draws name it. */
export interface RunSubject {
  readonly athlete: string;
  readonly subject: string;
  readonly place: number;
  readonly number: number;
  readonly hold: boolean;
  /** Nobody tested how fast it comes back. */
  readonly untested: boolean;
}

/** What the athletes of a plan do, each once. */
export function subjectsOf({ bodies, grips }: Pick<Ready, "bodies" | "grips">): readonly RunSubject[] {
  const all = [
    ...bodies.map(({ athlete, subject, place, number, untested }) => ({ athlete, subject, place, number, hold: false, untested })),
    ...grips.map(({ athlete, subject, place, number }) => ({ athlete, subject, place, number, hold: true, untested: false })),
  ];
  return [...new Map(all.map((one) => [`${one.athlete}\n${one.subject}\n${one.hold}`, one])).values()];
}
