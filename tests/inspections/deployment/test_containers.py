"""The container file and the compose file name only what is there; the runbook only commands that exist."""
import copy
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from django.core.management import get_commands

from inspections.deployment.entry import NEEDS_TEST_PINS

BASE = Path(__file__).resolve().parents[3]
COMPOSE = yaml.safe_load((BASE / "inspections" / "deployment" / "compose.yaml").read_text("utf-8"))
CONTAINER = (BASE / "inspections" / "deployment" / "Containerfile").read_text("utf-8")
RUNBOOK = (BASE / "inspections" / "deployment" / "docs" / "runbook.md").read_text("utf-8")


def held_to_the_compose_specification(file: Path) -> subprocess.CompletedProcess:
    """The schema of the Compose Specification (https://github.com/compose-spec/compose-spec, schema/compose-spec.json),
    as ``check-jsonschema`` carries it."""
    program = Path(sys.executable).parent / "check-jsonschema"
    return subprocess.run([program, "--builtin-schema", "vendor.compose-spec", file], capture_output=True, text=True)


def test_the_compose_file_is_one_by_the_compose_specification_s_own_schema():
    done = held_to_the_compose_specification(BASE / "inspections" / "deployment" / "compose.yaml")
    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize("wrong", [
    {"replicas": 2}, {"ports": "80"}, {"healthcheck": {"tests": ["CMD", "true"]}}, {"depends_on": [7]}])
def test_a_service_that_the_specification_does_not_know_is_found(wrong, tmp_path):
    changed = copy.deepcopy(COMPOSE)
    changed["services"]["web"] |= wrong
    file = tmp_path / "compose.yaml"
    file.write_text(yaml.safe_dump(changed), "utf-8")
    assert held_to_the_compose_specification(file).returncode == 1


@pytest.mark.parametrize("name", COMPOSE["services"])
def test_each_service_is_made_of_what_the_file_defines(name):
    service = COMPOSE["services"][name]
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
    assert told - set(get_commands()) - {"start", *NEEDS_TEST_PINS} == set()


@pytest.mark.parametrize("step", ["migrate", "collectstatic", "ready_reference"])
def test_the_image_prepares_itself_before_it_serves(step):
    last = CONTAINER.strip().splitlines()[-1]
    assert last.index(step) < last.index("inspections.deployment.web")


def test_django_s_own_checks_of_a_deployment_find_nothing_under_the_settings_of_the_compose_file(tmp_path):
    given = {"UNDERLID_DOMAIN": "receiving.example.org", "UNDERLID_DATABASE_PASSWORD": "p",
             "UNDERLID_SECRET": "0123456789abcdef" * 4}
    # set by the tests themselves
    clean = {name: value for name, value in os.environ.items() if name != "DJANGO_ALLOW_ASYNC_UNSAFE"}
    settings = {name: re.sub(r"\$\{(\w+)\}", lambda found: given[found[1]], value)
                for name, value in COMPOSE["services"]["web"]["environment"].items()}
    done = subprocess.run(
        [sys.executable, "manage.py", "check", "--deploy", "--fail-level", "WARNING"], cwd=BASE, text=True,
        capture_output=True, env=clean | settings | {"UNDERLID_DATA": str(tmp_path)})
    assert done.returncode == 0, done.stderr
    assert "no issues" in done.stdout
