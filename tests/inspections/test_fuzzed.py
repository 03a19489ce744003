"""Whatever a fuzzer makes of the API's document, good and bad, gets an answer that the document knows.

Every operation as everybody of the rights table, with ids that are there and ids that are not, by ``schemathesis``
(https://schemathesis.readthedocs.io): all of its checks, such as no 5xx, no status, content type or body that is not
described, nothing refused that the document allows, nothing taken that it does not, nothing without signing in. Held
fixed: the examples, so that a run is the same as the last.
"""
from contextlib import suppress

import pytest
import schemathesis
from django.core.signals import request_finished, request_started
from django.core.wsgi import get_wsgi_application
from django.db import close_old_connections, transaction
from django.test import Client
from hypothesis import HealthCheck, Phase, assume, given, seed, settings
from hypothesis import strategies as st
from schemathesis import GenerationMode
from schemathesis.config import SchemathesisConfig

from inspections import openapi
from tests.inspections.file_fixtures import apart  # noqa: F401
from tests.inspections.test_rights import PEOPLE, kitchen, people, things  # noqa: F401

EXAMPLES = 10
TOKEN = "a" * 32
CONFIG = SchemathesisConfig.from_dict({"base-url": "http://localhost", "generation": {
    # No database keeps a NUL in a text; who is signed in is chosen below.
    "allow-x00": False, "with-security-parameters": False,
}, "checks": {
    # What is well formed may still say something that cannot be (422), be too late (410) or lack its turn (412, 428).
    "positive_data_acceptance": {"expected-statuses": ["2xx", "3xx", 401, 403, 404, 409, 410, 412, 422, 428, 429]},
    # tus 1.0: another version, or none, is 412.
    "missing_required_header": {"expected-statuses": [400, 401, 403, 404, 412, 422]},
    "negative_data_rejection": {"expected-statuses": [400, 401, 403, 404, 405, 409, 412, 413, 415, 422, 428, 429]},
}, "operations": [
    # What the Base64 of a hash stands for, no pattern says.
    {"include-path": "/sync/uploads/", "checks": {"positive_data_acceptance": {"expected-statuses": ["2xx", "4xx"]}}},
]})
schemathesis.serializer.alias("application/offset+octet-stream", "application/octet-stream")
SCHEMA = schemathesis.openapi.from_dict(openapi.document(), config=CONFIG)
#: Parts of paths that name what is there, by the name of their parameter.
THERE = {
    "delivery_id": "delivery", "device_id": "device", "specification_id": "specification", "link_id": "link",
    "file_id": "log", "document_id": "open", "thermometer_id": "probe", "upload_id": "upload", "sha256": "photo",
    "row_id": "supplier", "addendum_id": "addendum", "check_id": "check",
}


class _Undone(Exception):
    """Takes back what one example did before the next."""


@pytest.fixture
def sessions(people) -> dict[str, dict[str, str]]:  # noqa: F811
    """The cookies of everybody of the rights table."""
    made = {"nobody": {}}
    for name, person in people.items():
        client = Client()
        client.force_login(person)
        made[name] = {"sessionid": client.cookies["sessionid"].value}
    return made


@pytest.fixture
def _one_connection(sessions, things):  # noqa: F811
    """Requests leave the test's own connection open, as those of Django's test client do."""
    for signal in (request_started, request_finished):
        signal.disconnect(close_old_connections)
    yield
    for signal in (request_started, request_finished):
        signal.connect(close_old_connections)


def _has_whole_float(part) -> bool:
    if isinstance(part, dict | list):
        return any(_has_whole_float(one) for one in (part.values() if isinstance(part, dict) else part))
    return isinstance(part, float) and part.is_integer()


OPERATIONS = [result.ok() for result in SCHEMA.get_all_operations()]


@pytest.mark.usefixtures("_one_connection")
def test_whatever_is_sent_gets_an_answer_that_is_described(sessions, things):  # noqa: F811
    # One after the other, since each example is undone: what is there is made once.
    for operation in OPERATIONS:
        _send_whatever_fits(operation, sessions, things)


def _send_whatever_fits(operation, sessions, things):  # noqa: F811
    operation.app = operation.schema.app = get_wsgi_application()
    cases = st.one_of(*(operation.as_strategy(generation_mode=mode) for mode in GenerationMode))

    @seed(8)
    @settings(max_examples=EXAMPLES, deadline=None, database=None, derandomize=False,
              phases=[Phase.generate], suppress_health_check=list(HealthCheck))
    @given(case=cases, name=st.sampled_from(PEOPLE), is_there=st.booleans())
    def run(case, name, is_there):
        # JSON Schema takes 1.0 for a whole number; this server does not, so that a seal spells it one way.
        assume(not _has_whole_float(case.body))
        if is_there and case.path_parameters:
            case.path_parameters.update(
                {part: things[THERE[part]] for part in case.path_parameters if part in THERE})
        # Told to be no invention of the fuzzer's, so that it also asks without it, and with a wrong one.
        case.cookies = {"csrftoken": TOKEN, **sessions[name]}
        case._has_explicit_auth = bool(sessions[name])
        with suppress(_Undone), transaction.atomic():
            case.call_and_validate(headers={"X-CSRFToken": TOKEN, "Accept-Encoding": "identity"})
            raise _Undone

    run()
