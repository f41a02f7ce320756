import type { Finding } from "../sync/api";
import type { Message } from "./say";

const BY_WORD: readonly (readonly [RegExp, Message])[] = [
  [/torque|tighten|stage|wrench|sequence/, "caution.torque"],
  [/isolat|energy|battery/, "caution.isolation"],
  [/fluid|drained|oil/, "caution.drained"],
  [/picture|count/, "caution.count"],
  [/test|start|turn/, "caution.start"],
];

/** Choose the cautions that a list of findings calls for; the one about the list itself always comes first. */
export function cautionsFor(findings: readonly Pick<Finding, "check">[]): Message[] {
  const asked = BY_WORD.filter(([word]) => findings.some((finding) => word.test(finding.check)));
  return ["caution.list", ...asked.map(([, message]) => message)];
}
