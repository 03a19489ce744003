"""The harbour kitchen, its phone, and a signed delivery with something to claim."""
import pytest

from inspections.claims.models import Claim
from inspections.claims.services import Said, draft_claim, say
from inspections.evidence.links import make_link
from inspections.records.models import Delivery
from tests.inspections.file_fixtures import apart, phone  # noqa: F401
from tests.inspections.receiving import Kitchen, decide, document, make_kitchen


def send_claim(*, claim: Claim, person, text: str = ""):
    """The kitchen sends a drafted claim."""
    return say(claim=claim, said=Said("send", "kitchen", person.name, person, text))


@pytest.fixture
def kitchen(db, apart) -> Kitchen:  # noqa: F811
    return make_kitchen()


@pytest.fixture
def refused(kitchen, phone) -> Delivery:  # noqa: F811
    """Twenty cartons of 10 kg at AUD 14.50, all refused."""
    final = decide(document(kitchen, bad=True), kind="reject", reason="Too warm.")
    assert phone.sign(final).status_code == 200
    return Delivery.objects.get(pk=final["id"])


@pytest.fixture
def claim(kitchen, refused) -> Claim:
    """A claim on it that was sent."""
    drafted = draft_claim(line=refused.lines.get(), person=kitchen.manager)
    send_claim(claim=drafted, person=kitchen.manager, text="Please credit the whole line.")
    return Claim.objects.get()


@pytest.fixture
def link(kitchen, refused) -> str:
    """The token of a supplier's link to it."""
    return make_link(delivery=refused, person=kitchen.manager)[1]
