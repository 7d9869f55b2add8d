import { describe, expect, test } from "vitest";
import { checks } from "../../server/checks";
import { check } from "../fixture";

describe("the example on a check's page is true", () => {
  for (const { code, example } of checks)
    test(code, () => {
      // a fragment without an aircraft shows its finding as a part of one would
      const whole = example.includes("aircraft ") || code === "no-root";
      check(whole ? example.trimStart() : `aircraft kite { units lb, in, gal }${example}`);
    });
});

test("every code has a page of its own: a sentence and an example that shows it", () => {
  for (const { code, explain, example } of checks) {
    expect(explain.length).toBeGreaterThan(40);
    expect(example).toContain(`[${code}]`);
  }
  expect(new Set(checks.map(({ code }) => code)).size).toBe(checks.length);
});
