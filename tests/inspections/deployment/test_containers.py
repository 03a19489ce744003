"""The container file and the compose file name only what is there; the runbook only commands that exist."""
import re
from pathlib import Path

import pytest
import yaml
from django.core.management import get_commands

BASE = Path(__file__).resolve().parents[3]
COMPOSE = yaml.safe_load((BASE / "inspections" / "deployment" / "compose.yaml").read_text("utf-8"))
CONTAINER = (BASE / "inspections" / "deployment" / "Containerfile").read_text("utf-8")
RUNBOOK = (BASE / "inspections" / "deployment" / "docs" / "runbook.md").read_text("utf-8")
#: Keys of a service in the Compose specification (https://github.com/compose-spec/compose-spec, 05-services) that are
#: used here; from memory.
SERVICE_KEYS = {"build", "image", "restart", "environment", "volumes", "depends_on", "command", "deploy", "ports",
                "healthcheck", "stop_grace_period"}


@pytest.mark.parametrize("name", COMPOSE["services"])
def test_each_service_is_made_of_what_the_file_defines(name):
    service = COMPOSE["services"][name]
    assert set(service) <= SERVICE_KEYS
    assert set(service.get("depends_on", [])) <= set(COMPOSE["services"])
    assert {volume.split(":")[0] for volume in service.get("volumes", [])} <= set(COMPOSE["volumes"])
    assert service["restart"] == "unless-stopped"


def test_every_setting_in_the_compose_file_is_one_that_is_read():
    listed = set(re.findall(r"^\| `([A-Z0-9_]+)`", (BASE / "DEVELOPERS.md").read_text("utf-8"), re.MULTILINE))
    assert set(COMPOSE["services"]["web"]["environment"]) <= listed


def test_the_image_copies_only_what_is_there():
    copied = re.findall(r"^COPY (?!--from)(.+) \S+$", CONTAINER, re.MULTILINE)
    assert copied
    assert [name for line in copied for name in line.split() if not (BASE / name).exists()] == []


def test_client_programs_are_as_new_as_the_database():
    database = COMPOSE["services"]["database"]["image"].rsplit(":", 1)[1]
    assert f"postgresql-client-{database}" in CONTAINER


@pytest.mark.parametrize("page", [CONTAINER, RUNBOOK, (BASE / "README.md").read_text("utf-8")])
def test_commands_that_are_told_exist(page):
    told = set(re.findall(r"(?:python3? |`)manage\.py ([a-z_]+)", page))
    assert told
    assert told - set(get_commands()) - {"start", "test"} == set()


@pytest.mark.parametrize("step", ["migrate", "collectstatic", "ready_reference"])
def test_the_image_prepares_itself_before_it_serves(step):
    last = CONTAINER.strip().splitlines()[-1]
    assert last.index(step) < last.index("inspections.deployment.web")
