/** Every kind of event that the language knows, with one team: what the search's tests are made of. */
import { compileText } from "../notebook.js";

/** Four athletes of 2, 2.2, 2.4 and 2.6 s a rep; best sets around `unbroken`. */
export function ground(unbroken: number, fade: number): string {
  const cells = [1, 0.8, 1.2, 0.9].map((part) => Math.round(unbroken * part)).join("  ");
  return `team Kelp Street
  Ines   woman
  Marta  woman
  Bram   man
  Tariq  man
ability  Ines  Marta  Bram  Tariq
  squat  unbroken  ${cells}  reps
  squat  cycle  2  2.6  2.2  2.4  s
  squat  fade  ${[fade, fade, fade, fade].join("  ")}  %
  row  unbroken  ${cells}  reps
  row  cycle  2.4  2.2  2.6  2  s
  row  fade  ${[fade, fade, fade, fade].join("  ")}  %
  stone  hold  90  80  120  100  s
`;
}

const tired = ground(20, 50);

export const events: Readonly<Record<string, string>> = {
  "work for one at a time": `${tired}event Test\n  score time\n  cap 10 min\n  working at most 1\n  stage 80 squat\n`,
  "work while another holds": `${tired}event Test\n  score time\n  cap 12 min\n  working at most 2\n  stage 120 squat while 1 hold stone\n  rule share within 10 %\n  rule hold turn at most 45 s\n`,
  "work in step": `${tired}event Test\n  score time\n  cap 12 min\n  pairs mixed\n  working at most 2\n  stage 60 squat in sync\n`,
  "work together": `${tired}event Test\n  score time\n  cap 12 min\n  working at most 2\n  stage 60 squat together\n`,
  "two stages": `${tired}event Test\n  score time\n  cap 15 min\n  working at most 2\n  stage one 60 squat together\n  stage two 60 row\n`,
  "pairs in turn": `${tired}event Test\n  score time\n  cap 12 min\n  pairs alternate\n  working at most 1 pair\n  stage 120 squat\n`,
  "rounds of a pair": `${tired}event Test\n  score time\n  cap 20 min\n  working at most 1 pair\n  round of 8\n    4 squat each\n    5 row in sync\n`,
  "work of the women, then of the men": `${tired}event Test\n  score time\n  cap 12 min\n  working at most 1\n  stage one 60 squat for women\n  stage two 60 row for men while 1 hold stone\n  rule everyone works\n`,
  "reps on stations": `${tired}event Test\n  score reps\n  cap 6 min\n  station low for women\n  station high for men\n  stage squat\n`,
  "reps in time": `${tired}event Test\n  score reps\n  cap 5 min\n  working at most 1\n  stage squat\n`,
  "work on stations": `${tired}event Test\n  score time\n  cap 10 min\n  station low for women\n  station high for men\n  stage 80 squat\n`,
  "stages for reps": `${tired}event Test\n  score reps\n  cap 6 min\n  working at most 1\n  stage one 30 squat\n  stage "two" row\n`,
  "windows of rounds": `${tired}event Test\n  score reps\n  window 4 min for women\n  window 4 min for men\n  round\n    6 squat\n    6 row\n`,
};

/** What the search is asked: the event Test of a text, its team, and what the models made of its abilities. */
export function problemOf(text: string, name = "Test") {
  const { world, abilities } = compileText(text).kept;
  const event = world.events.get(name);
  const team = [...world.teams.values()][0];
  if (!event || !team) throw new Error("no event or team in the text");
  return { event, team, abilities, constants: world.constants };
}
