import { aboveWeightLimit } from "./above-weight-limit";
import { armAndMomentDiffer } from "./arm-and-moment-differ";
import { armMissing } from "./arm-missing";
import { belowWeightLimit } from "./below-weight-limit";
import { budgetAtRisk } from "./budget-at-risk";
import { cgAft } from "./cg-aft";
import { cgForward } from "./cg-forward";
import { cgLateral } from "./cg-lateral";
import { cgOffTarget } from "./cg-off-target";
import { changedAfterWeighing } from "./changed-after-weighing";
import type { Check } from "./check";
import { creep } from "./creep";
import { declaredTwice } from "./declared-twice";
import { figureSuspect } from "./figure-suspect";
import { fluidStateAssumed } from "./fluid-state-assumed";
import { includeLoop } from "./include-loop";
import { includeMissing } from "./include-missing";
import { includeOutside } from "./include-outside";
import { inertiaImpossible } from "./inertia-impossible";
import { limitExceeded } from "./limit-exceeded";
import { loadingAtRisk } from "./loading-at-risk";
import { loadingCanExceed } from "./loading-can-exceed";
import { loadingUnknown } from "./loading-unknown";
import { marginLow } from "./margin-low";
import { massMissing } from "./mass-missing";
import { negativeMass } from "./negative-mass";
import { noCgLimits } from "./no-cg-limits";
import { noRoot } from "./no-root";
import { oneStation } from "./one-station";
import { outOfRange } from "./out-of-range";
import { overAllocated } from "./over-allocated";
import { overBudget } from "./over-budget";
import { recordOvertaken } from "./record-overtaken";
import { requirementAtRisk } from "./requirement-at-risk";
import { requirementFailed } from "./requirement-failed";
import { requirementUnknown } from "./requirement-unknown";
import { rowsOutOfOrder } from "./rows-out-of-order";
import { swingImpossible } from "./swing-impossible";
import { syntax } from "./syntax";
import { unitMissing } from "./unit-missing";
import { unitsAssumed } from "./units-assumed";
import { unknownName } from "./unknown-name";
import { unlisted } from "./unlisted";
import { waiverExpired } from "./waiver-expired";
import { waiverUnused } from "./waiver-unused";
import { weighingDisagrees } from "./weighing-disagrees";
import { wrongDimension } from "./wrong-dimension";

/** The registry. Its order is the order of the reference. */
export const checks: readonly Check[] = [
  ...[syntax, unknownName, declaredTwice, wrongDimension, unitMissing, negativeMass],
  ...[
    inertiaImpossible,
    swingImpossible,
    rowsOutOfOrder,
    outOfRange,
    includeLoop,
    includeOutside,
    includeMissing,
  ],
  ...[overBudget, budgetAtRisk, marginLow, overAllocated, cgOffTarget, creep],
  ...[unitsAssumed, recordOvertaken, figureSuspect, massMissing, armMissing],
  ...[armAndMomentDiffer, unlisted],
  ...[
    cgForward,
    cgAft,
    cgLateral,
    aboveWeightLimit,
    belowWeightLimit,
    limitExceeded,
    loadingAtRisk,
    loadingUnknown,
    noCgLimits,
    loadingCanExceed,
  ],
  ...[
    requirementFailed,
    requirementAtRisk,
    requirementUnknown,
    weighingDisagrees,
    fluidStateAssumed,
    oneStation,
    changedAfterWeighing,
    waiverExpired,
    waiverUnused,
    noRoot,
  ],
];

export const memberChecks = checks.filter(check => check.member !== undefined);
export const rootChecks = checks.filter(check => check.root !== undefined);
/** What these say is of a change: it takes two pictures. */
export const changeChecks = checks.filter(check => check.change !== undefined);

const byCode = new Map(checks.map(check => [check.code, check]));
export const checkOf = (code: string): Check | undefined => byCode.get(code);
