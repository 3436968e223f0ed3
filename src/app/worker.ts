/** Keeps the notebook compiled beside the page. Takes edits, gives what changed; drawn from `compile` alone. */
import { shift } from "../0-base/span.js";
import { type Document, lineAt, lineStarts } from "../1-text/document.js";
import { applyEdits } from "../1-text/edits.js";
import type { LogLine } from "../3-plan/ast.js";
import { readLog } from "../3-plan/log.js";
import { compile, type Compiled, drawnIn } from "../compile.js";
import { untestedIn } from "../4-timeline/sensitivity.js";
import type { Timeline } from "../4-timeline/timeline.js";
import type { Finding } from "../5-findings/judge.js";
import { explain, type Explanation, withWords } from "../7-view/answer.js";
import type { AnsweredBlock } from "../7-view/answered-block.js";
import type { WeekRun } from "../4-timeline/week.js";
import { answersWithDays, type DrawnDays } from "../7-view/spread-words.js";
import { pictureOf } from "../7-view/picture.js";
import { type Said, saidOf, screenLines } from "../7-view/said.js";
import { weekPicture } from "../7-view/week-picture.js";
import { hangsOn } from "../7-view/why-words.js";
import { replyTo } from "./questions.js";
import type { DocumentCount, FromWorker, ToWorker } from "./protocol.js";

let documents: readonly Document[] = [];
let compiled: Compiled | null = null;
let shown = "";
let version = 0;
let cursor = 0;
/** The answers that the page has; null where it has none of the shown document yet. */
let said: WeakSet<AnsweredBlock["answers"]> | null = null;
/** Blocks that are not said yet. */
let unsaid: AnsweredBlock[] = [];
let foundBefore: readonly AnsweredBlock["findings"][] | null = null;
let countsBefore = "";
let pictureBefore = "";
let drawnBefore: unknown = null;
let drawn = new WeakSet<Timeline>();
/** What the scores of plans hang on, where that was asked. */
const hanging = new WeakMap<Timeline, string | null>();
/** What second tries of weeks would bring, once somebody has looked. */
const seconds = new WeakMap<WeekRun, ReadonlyMap<number, string>>();
let due = false;
let pause: ReturnType<typeof setTimeout> | undefined;

/** A pause in typing, after which findings and picture follow. */
const pauseMs = 250;
/** About a frame, which the key that was typed has for itself. */
const frameMs = 12;

self.addEventListener("message", ({ data }: MessageEvent<ToWorker>) => {
  switch (data.kind) {
    case "open":
      documents = data.documents;
      shown = data.path;
      version = data.version;
      said = null;
      drawn = new WeakSet();
      foundBefore = null;
      pictureBefore = "";
      cursor = 0;
      break;
    case "edit":
      version = data.version;
      cursor = data.edits[0]?.from ?? cursor;
      documents = documents.map((document) => (document.path === data.path ? edited(document, data.edits) : document));
      break;
    case "replace":
      documents = [...documents.filter(({ path }) => path !== data.path), { path: data.path, text: data.text }];
      break;
    case "remove":
      documents = documents.filter(({ path }) => path !== data.path);
      break;
    case "cursor":
      cursor = data.offset;
      explainLine();
      goOn();
      return;
    case "ask":
      answer();
      if (compiled)
        void replyTo(data.question, compiled, documents, explanationAt).then((reply) => send({ kind: "reply", id: data.id, reply }));
      return;
  }
  // Keys that come meanwhile are taken together, and the page has its frame first: one compilation answers them all.
  if (due) return;
  due = true;
  setTimeout(answer, frameMs);
});

function edited(
  { path, text }: Document,
  edits: readonly { readonly from: number; readonly to: number; readonly text: string }[],
): Document {
  return {
    path,
    text: applyEdits(
      text,
      edits.map((edit) => ({ span: { from: edit.from, to: edit.to }, text: edit.text })),
    ),
  };
}

function answer(): void {
  if (!due) return;
  due = false;
  compiled = compile(documents, compiled);
  const blocks = compiled.documents.get(shown)?.blocks ?? [];
  const first = blocks.find(({ block }) => block.from + block.text.length >= cursor)?.block.firstLine ?? 0;
  const near = ({ block }: AnsweredBlock): boolean => Math.abs(block.firstLine - first) <= screenLines;
  const whole = said === null;
  unsaid = blocks.filter((block) => !near(block));
  send({ kind: "answers", path: shown, version, whole, said: changed(blocks.filter(near)).map(placed) });
  goOn();
}

/** What is unsaid comes next; all else when the typing rests. */
function goOn(): void {
  clearTimeout(pause);
  pause = unsaid.length > 0 ? setTimeout(sayOn) : setTimeout(inPause, pauseMs);
}

/** Says a frame's worth of the blocks that are left, unless a key has come. */
function sayOn(): void {
  if (due) return;
  const untilMs = performance.now() + frameMs;
  const next: AnsweredBlock[] = [];
  while (unsaid.length > 0 && performance.now() < untilMs) next.push(...changed(unsaid.splice(0, 1)));
  if (next.length > 0) send({ kind: "answers", path: shown, version, whole: false, said: next.map(placed) });
  goOn();
}

/** The blocks whose answers the page does not have; it has them from now on. */
function changed(blocks: readonly AnsweredBlock[]): readonly AnsweredBlock[] {
  const known = (said ??= new WeakSet());
  const found = blocks.filter(({ answers }) => !known.has(answers));
  for (const { answers } of found) known.add(answers);
  return found;
}

/** What may wait until the typing rests: findings, counts, the picture. */
function inPause(): void {
  // An edit has come that is not answered yet: its answer will set the pause anew.
  if (due) return;
  const blocks = compiled?.documents.get(shown)?.blocks ?? [];
  const found = blocks.map(({ findings }) => findings);
  const sameFindings = found.length === foundBefore?.length && found.every((findings, at) => findings === foundBefore?.[at]);
  foundBefore = found;
  const counts = compiled ? countsOf(compiled) : [];
  const sameCounts = JSON.stringify(counts) === countsBefore;
  countsBefore = JSON.stringify(counts);
  if (!sameFindings || !sameCounts)
    send({
      kind: "findings",
      path: shown,
      version,
      findings: sameFindings ? null : blocks.flatMap(findingsOf),
      counts: sameCounts ? null : counts,
    });
  explainLine();
  sendPicture(blocks);
  setTimeout(drawDays);
}

/** How the answer of the cursor's line came about. */
function explainLine(): void {
  if (due) return;
  send({ kind: "explanation", path: shown, version, explanation: explanationAt(shown, cursor) });
}

function explanationAt(path: string, offset: number): Explanation | null {
  const at = compiled?.documents.get(path)?.blocks.findLast(({ block }) => block.from <= offset);
  const line = at ? lineAt(lineStarts(at.block.text), offset - at.block.from) : 0;
  const found = at && answersOf(at).find((one) => one.line === line);
  return found ? explain(found) : null;
}

/** The plan at the cursor; else the last one before it; else the first. */
function shownPlan(blocks: readonly AnsweredBlock[]): AnsweredBlock | undefined {
  const plans = blocks.filter(({ plan }) => plan?.timeline);
  return plans.findLast(({ block }) => block.from <= cursor) ?? plans[0];
}

/** The week at the cursor; the first of a document that has no plan. */
function shownWeek(blocks: readonly AnsweredBlock[]): AnsweredBlock | undefined {
  const weeks = blocks.filter(({ block }) => block.read.line.kind === "week");
  const here = blocks.findLast(({ block }) => block.from <= cursor);
  return weeks.find((week) => week === here) ?? (shownPlan(blocks) ? undefined : weeks[0]);
}

function sendWeek({ block, week }: AnsweredBlock): void {
  const picture = week && compiled && weekPicture(week, compiled.kept.world.constants);
  const key = JSON.stringify(picture);
  if (key === pictureBefore) return;
  pictureBefore = key;
  drawnBefore = null;
  send({ kind: "picture", path: shown, version, picture: null, week: picture ?? null, blockFrom: block.from, event: "", plans: [] });
}

/** A log at the cursor is drawn over its plan. */
function sendLog(line: LogLine): void {
  const plan = [...(compiled?.documents.values() ?? [])]
    .flatMap((document) => document.blocks)
    .find((block) => block.plan?.timeline && block.plan.resolved.line.name.text === line.plan.text)?.plan;
  const athletes = compiled?.kept.world.athletes;
  const picture = plan && athletes ? pictureOf(plan, null, null, readLog(line, athletes)) : null;
  const key = `log ${JSON.stringify(picture)}`;
  if (key === pictureBefore) return;
  pictureBefore = key;
  drawnBefore = null;
  send({ kind: "picture", path: shown, version, picture, week: null, blockFrom: 0, event: "", plans: [] });
}

function sendPicture(blocks: readonly AnsweredBlock[]): void {
  const week = shownWeek(blocks);
  if (week) return sendWeek(week);
  const here = blocks.findLast(({ block }) => block.from <= cursor)?.block.read.line;
  if (here?.kind === "log") return sendLog(here);
  const at = shownPlan(blocks);
  const line = blocks.findLast(({ block }) => block.from <= cursor)?.block.read.line;
  const event = line?.kind === "event" ? line.name.text : (at?.plan?.resolved.line.event.text ?? lastEvent(blocks));
  const rivals = [...(compiled?.documents.values() ?? [])]
    .flatMap((document) => document.blocks)
    .flatMap(({ plan }) => (plan?.timeline && plan.resolved.line.event.text === event ? [plan.resolved.line.name.text] : []));
  const days = compiled?.kept.drawn.knownDays(at?.plan?.timeline) ?? null;
  const hangs = (at?.plan?.timeline && hanging.get(at.plan.timeline)) ?? null;
  const key = `${days !== null} ${hangs} ${shown} ${at?.block.from} ${at?.block.text} ${event} ${rivals.join()}`;
  if (key === pictureBefore && at?.plan?.timeline === drawnBefore) return;
  pictureBefore = key;
  drawnBefore = at?.plan?.timeline ?? null;
  send({
    kind: "picture",
    path: shown,
    version,
    picture: at?.plan ? pictureOf(at.plan, days, hangs) : null,
    week: null,
    blockFrom: at?.block.from ?? 0,
    event,
    plans: rivals,
  });
}

/** The event that a document without a plan is about. */
function lastEvent(blocks: readonly AnsweredBlock[]): string {
  const last = blocks.map(({ block }) => block.read.line).findLast(({ kind }) => kind === "event");
  return last?.kind === "event" ? last.name.text : "";
}

/** Draws the days of one plan after another, the cursor's first, until a key comes. */
function drawDays(): void {
  if (due || !compiled) return;
  const { daysOf } = compiled;
  const blocks = compiled.documents.get(shown)?.blocks ?? [];
  const open = blocks.filter(({ plan }) => plan?.timeline && !drawn.has(plan.timeline));
  const next = open.findLast(({ block }) => block.from <= cursor) ?? open[0];
  if (!next?.plan?.timeline) {
    const comparing = blocks.filter(({ block }) => block.read.line.kind === "compare" || block.read.line.kind === "expect");
    if (comparing.length > 0) send({ kind: "answers", path: shown, version, whole: false, said: comparing.map(placed) });
    askWhatItHangsOn(blocks);
    void askSecondTries(blocks);
    return;
  }
  drawn.add(next.plan.timeline);
  daysOf(next.plan);
  send({ kind: "answers", path: shown, version, whole: false, said: [placed(next)] });
  sendPicture(blocks);
  setTimeout(drawDays);
}

/** Looks what the score of the plan in the picture hangs on, once. */
function askWhatItHangsOn(blocks: readonly AnsweredBlock[]): void {
  const plan = shownPlan(blocks)?.plan;
  if (!compiled || !plan?.timeline || !plan.resolved.plan || hanging.has(plan.timeline)) return;
  const { abilities, world } = compiled.kept;
  hanging.set(plan.timeline, hangsOn(untestedIn(plan.resolved.plan, abilities, world.constants), plan.resolved.plan.event.score));
  sendPicture(blocks);
}

/** Looks whether the second tries of a shown week are likely to pay, once a week. */
async function askSecondTries(blocks: readonly AnsweredBlock[]): Promise<void> {
  const { secondTries } = await import("../7-view/second-try.js");
  const block = blocks.find(({ week }) => week && !seconds.has(week));
  if (due || !compiled || !block?.week) return;
  const starts = lineStarts(block.block.text);
  seconds.set(
    block.week,
    new Map([...secondTries(block.week, compiled)].map(([{ session }, words]) => [lineAt(starts, session.span.from), words])),
  );
  send({ kind: "answers", path: shown, version, whole: false, said: [placed(block)] });
}

/** A block's answers, with what days add where they are drawn. */
function answersOf(block: AnsweredBlock): AnsweredBlock["answers"] {
  const tries = block.week && seconds.get(block.week);
  const answers = answersWithDays(block, drawnSoFar);
  return tries ? answers.map((answer) => withWords(answer, tries.get(answer.line))) : answers;
}

/** The days that are drawn; nothing is drawn for being asked. */
const drawnSoFar: DrawnDays = {
  of: ({ timeline }) => compiled?.kept.drawn.knownDays(timeline) ?? null,
  named: (name) => (compiled ? drawnIn({ ...compiled, daysOf: drawnSoFar.of }).named(name) : null),
};

function placed(answered: AnsweredBlock): Said {
  return saidOf(answered.block, answersOf(answered));
}

function findingsOf({ block, findings }: AnsweredBlock): readonly Finding[] {
  return findings.map((finding) => ({
    ...finding,
    span: shift(finding.span, block.from),
    fixes: finding.fixes.map((fix) => ({ ...fix, edits: fix.edits.map(({ span, text }) => ({ span: shift(span, block.from), text })) })),
  }));
}

function countsOf({ documents: all }: Compiled): readonly DocumentCount[] {
  return [...all].map(([path, { blocks }]) => {
    const found = blocks.flatMap(({ findings }) => findings);
    return {
      path,
      errors: found.filter(({ severity }) => severity === "error").length,
      warnings: found.filter(({ severity }) => severity === "warning").length,
    };
  });
}

function send(message: FromWorker): void {
  self.postMessage(message);
}
