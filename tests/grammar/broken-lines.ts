/** At least a hundred ways in which a line is broken: typos, unfinished lines, marks, other languages, pasted things. */
export const brokenLines: readonly string[] = [
  // Words that are no line.
  "x", "foo bar", "hello world how are you", "Ines", "Ines and Bram", "todo", "TODO ask Marta", "the team is tired", "???", "...", "-", "--", "---",
  "*", "* item", "- item", "1.", "1)", "!", "%", "&", "@", "@ 20 kg", "=", "==", "(", ")", "()", "((", "))", "[", "]", "{", "}", "{}", "<", "<b>",
  "/", "\\", "|", "| a | b |", "~", "`", "'", '"', '"open', 'x "open', "“quoted”", "…", "→", "½", "🙂", "字", "字 字 字", "ä ö ü",
  // Numbers and times out of place.
  "7", "7.", ".7", "7 kg", "7:3", "7:", ":30", "2026", "2026-03", "2026-3-1", "1/2", "1,5", "1e9", "0x1f", "-5", "+5", "5 +", "5 + 5",
  // Lines that stop too early.
  "plan", "plan X", "plan X for", "event", "event like", "event X like", "team", "movement", "hold", "asks", "asks squat", "asks squat 60", "asks squat 60 %,",
  "stage", "stage @", "stage squats 150", "cap", "handover", "score", "pairs", "working", "working at", "working at most", "window", "window 9 min", "window 9 min for",
  "station", "station low rings", "station low rings for", "round of", "rule", "standard", "pair", "pair A", "pair A Ines", "pair A Ines +", "repeat until", "lane", "lane x on",
  "rest", "rest until", "rest until 60", "Ines rest", "Ines rest until", "A 7-", "A 7-6-", "A (", "A (1 +", "A (round(2", "A 28 %", "A 10 as", "A 10 as 4", "A 10 as 4+",
  "A 7 each while", "A 7 each while Marta", "A 7 in", "A 7 @", "A 7 @ 30/", "A 7 @ 30", "ability on", "swing unbroken", "swing in 5 min", "swing cycle",
  "week", "zone", "due", "due 2026-03-26", "at", "at most", "at most 1", "2026-03-20", "2026-03-20 18:00", "2026-03-20 18:00 X plan", "cue", "keep", "keep 2 h", "open", "open 2026-03-20", "Ada away", "at least", "at least 4 h", "X plan", "18:00", "log", "log X", "log X on",
  "squats done", "Marta broke", "Marta broke at", "Tariq dropped", "Tariq dropped the hold", "Tariq dropped the hold at", "Ines no-rep", "finish",
  "let", "let x", "let x =", "let x = 1 +", "let x = (", "let x = foo(", "let x = 1 to", "expect", "expect x", "expect x under", "expect x at", "compare", "compare X,", "use", "use x", "assume", "assume handover",
  // Lines that go on too long.
  "score time please", "cap 5 min or so", "team X // fine so far", "repeat 5 times", "A 7 each each while Marta hold now", "rest 10 s more", "finish 12:21 hurray", "cap five minutes", "handover 3 s 4 s",
  // Almost right.
  "paln Steady for Breakwater", "satge squats", "repaet", "A 7 ecah", "A seven each", "A7 each", "Ines: 5", "Ines = 5", "Ines, 5", "Ines 5,", "Ines; 5", "A 7 each while Marta holding", "A 7 each, while Marta hold",
  "window for women", "2026/03/20 18:00 X", "20.03.2026 18:00 X", "stage squats 150 sandbag squat @ 30kg/20kg", "compare Steady and Bold", "expect Steady.time < 15:00", "let x := 5", "let 5 = x",
];
