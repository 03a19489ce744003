"""Words that several answers share."""
from typing import Annotated, Literal

from msgspec import Meta

Outcome = Annotated[Literal["accept", "accept_with_allowance", "hold", "reject"], Meta(title="DecisionKind")]
Suggested = Annotated[
    Literal["accept", "accept_with_allowance", "hold", "reject", "not_yet"], Meta(title="Suggestion")
]
DeliveryState = Annotated[Literal["signed", "put_away"], Meta(title="DeliveryState")]
Severity = Annotated[Literal["critical", "major", "minor", "note"], Meta(title="Severity")]
Sense = Annotated[Literal["at_most", "below", "at_least", "above", "none"], Meta(title="Sense")]
Check = Annotated[Literal["within", "beyond", "not_checked", "cannot_tell"], Meta(title="Check")]
Step = Annotated[Literal["a", "b", "c", "d", "e", "f", "g"], Meta(title="Step")]
AdviceAnswer = Literal["darkening_seen", "none_seen", "cannot_tell", "look_here", "finding_first", "switched_off"]


#: Not in what an earlier edition of the judgement sealed; the present one never leaves it out.
LATER = Meta(extra_json_schema={"x-written": "always"})
#: Words whose known ones stand in the schema of documents.
Presentation = Annotated[str, Meta(extra_json_schema={"x-type": "Presentation"})]
GoodsState = Annotated[str, Meta(extra_json_schema={"x-type": "State"})]
Method = Annotated[str, Meta(extra_json_schema={"x-type": "Method"})]
PlanName = Annotated[str, Meta(extra_json_schema={"x-type": "PlanName"})]
