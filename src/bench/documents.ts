/** A notebook document of about `lines` lines: one team, one event, and plans of the demo's shape, no two alike. */
export function documentOf(lines: number): string {
  const head = `team Kelp Street
  Ines woman
  Marta woman
  Bram man
  Tariq man
ability  Ines  Marta  Bram  Tariq
  squat  unbroken  24  19  31  27  reps
  squat  cycle  2.4  2.6  2.2  2.3  s
  squat  in 5 min  58  49  70  63  reps
  stone  hold  82  74  118  104  s
event Harbour
  score time
  cap 18 min
  handover 3 s
  stage squats  150 squat while 1 hold stone

`;
  const parts = [head];
  for (let at = 0, count = 16; count < lines; at += 1, count += 12) {
    const size = (pass: number): number => 3 + ((at * 7 + pass * 3) % 5);
    parts.push(`# Plan ${at}
plan Plan${at} for Harbour
  pair A  Ines + Bram
  pair B  Marta + Tariq
  stage squats
    repeat
      A ${size(0)} each while Marta hold
      B ${size(1)} each while Bram hold
      rest ${5 + (at % 20)} s
      A ${size(2)} each while Tariq hold
      B ${size(3)} each while Ines hold

`);
  }
  return parts.join("");
}
