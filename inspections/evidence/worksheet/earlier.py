"""What findings led to under the editions of the judgement before 3: sealed records of then stay as they were judged.

One carton stood for the line: a critical finding refused it, more defective cartons than the plan accepts did too.
"""
from collections.abc import Iterator
from typing import Any

HAZARDS = frozenset({"FOREIGN-HAZARD", "ODOUR-CHEMICAL"})
SUBSTITUTIONS = frozenset({"SPECIES-LABEL"})
DOUBTS = frozenset({"TEMP-OUTSIDE", "TEMP-BETWEEN", "SPECIES-MARKS", "TEMP-PROBE-DOUBT", "TEMP-PROBE-FAILED",
                    "TEMP-PROBE-OVERDUE", "TEMP-PROBE-UNCHECKED", "TEMP-PROBE-UNKNOWN"})
SHORT_VALUE = frozenset({"CARTONS-SHORT", "NET-MEAN", "NET-UNIT", "NET-UNIT-NOTE", "COUNT-BEYOND", "GLAZE-OVER"})
#: What a line had to have then.
EARLIER_CHECKS = ("cartons_counted", "cartons_opened", "product_readings", "liner", "black_spot", "count", "label")
#: The first edition whose findings act where they belong.
FIRST_TO_REACH = 3


def led_to(code: str, severity: str) -> str:
    """What a finding led to, as a key of the words ``leads_to``."""
    if code in HAZARDS:
        return "hazard"
    if severity == "critical" or (severity == "major" and code in SUBSTITUTIONS):
        return "reject"
    if severity != "major":
        return "note"
    if code in DOUBTS:
        return "hold"
    return "value" if code in SHORT_VALUE else "defect"


def steps_of(judged: dict[str, Any], *, is_short: bool) -> Iterator[tuple[str, str, bool]]:
    """Letter, suggestion, and whether the step is true, of the steps as they were."""
    reasons, sampling = judged["reasons"], judged["sampling"]
    serious = [reason for reason in reasons if reason["severity"] in ("critical", "major")]
    yield "a", "hold", any(reason["code"] in HAZARDS for reason in reasons)
    yield "b", "reject", any(reason["severity"] == "critical" or reason["code"] in SUBSTITUTIONS for reason in serious)
    yield "c", "reject", sampling["defective"] > sampling["acceptance"]
    yield "d", "hold", any(reason["code"] in DOUBTS for reason in serious)
    yield "e", "not_yet", bool(judged["needed"])
    valued = any(reason["code"] == "NET-MEAN"
                 or (reason["code"] == "COUNT-BEYOND" and reason["sense"] != "at_least")
                 or (reason in serious and reason["code"] in SHORT_VALUE) for reason in reasons)
    yield "f", "accept_with_allowance", sampling["defective"] > 0 or is_short or valued
    yield "g", "accept", True
