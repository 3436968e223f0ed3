import { describe, expect, it } from "vitest";
import { rules } from "../../src/5-findings/registry.js";
import { compileText, findingsOf } from "../notebook.js";

describe.each(rules.map((rule) => [rule.id, rule] as const))("%s", (id, rule) => {
  const open = rule.bad.indexOf("«");
  const close = rule.bad.indexOf("»");
  const bad = rule.bad.replace(/[«»]/g, "");

  it("finds its bad example once, on the marked characters", () => {
    const found = findingsOf(compileText(bad)).filter((finding) => finding.rule === id);
    expect(found.map(({ at, marked }) => [at, marked])).toEqual([[open, rule.bad.slice(open + 1, close)]]);
  });

  it("is the only error or warning of its bad example that is not its consequence", () => {
    const others = findingsOf(compileText(bad)).filter((finding) => finding.rule !== id && finding.severity === "error");
    const consequences = new Set(["total-short"]);
    expect(others.filter((finding) => !consequences.has(finding.rule)).map((finding) => `${finding.rule}: ${finding.message}`)).toEqual([]);
  });

  it("finds nothing in its good example", () => {
    expect(findingsOf(compileText(rule.good)).map((finding) => `${finding.rule}: ${finding.message}`)).toEqual([]);
  });

  it("says what, why and what to do", () => {
    const [found] = findingsOf(compileText(bad)).filter((finding) => finding.rule === id);
    expect(found?.message).toMatch(/[.?]$/);
    expect(found?.message).not.toMatch(/undefined|NaN|\[object|“”/);
    expect(rule.why).toMatch(/\.$/);
    expect(rule.source.length).toBeGreaterThan(4);
  });
});

describe("the registry", () => {
  it("knows each rule once, by its file's name, frozen", () => {
    expect(new Set(rules.map(({ id }) => id)).size).toBe(rules.length);
    expect(rules.every((rule) => Object.isFrozen(rule))).toBe(true);
    expect(Object.isFrozen(rules)).toBe(true);
  });
});
