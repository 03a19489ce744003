"""The rules of the house that a machine can check: arrows, top level, settings listed, migrations made."""
import re
import subprocess
import sys
from pathlib import Path

import pytest
from django.core.management import call_command

BASE = Path(__file__).resolve().parent.parent
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "manage.py", "requirements.txt", "pyproject.toml", "LICENSE",
             "inspections", "imaging", "frontend", "tests", "fixtures"}
FRONTEND = BASE / "frontend" / "src"
#: folder of frontend/src -> folders of it that it may import
TYPESCRIPT_ARROWS = {
    "trade": {"trade"},
    "store": {"store", "trade", "messages"},
    "sync": {"sync", "store", "trade", "messages"},
}


def tracked_files() -> list[str]:
    """Files that git tracks."""
    return subprocess.run(["git", "ls-files"], cwd=BASE, capture_output=True, text=True, check=True).stdout.splitlines()


def test_arrows_between_the_packages_point_one_way():
    program = Path(sys.executable).parent / "lint-imports"
    done = subprocess.run([str(program), "--no-cache"], cwd=BASE, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout


@pytest.mark.parametrize(("folder", "allowed"), TYPESCRIPT_ARROWS.items())
def test_arrows_between_the_app_s_folders_point_one_way(folder, allowed):
    wrong = []
    # a test may use the cast of frontend/src/testing
    for file in (file for file in (FRONTEND / folder).rglob("*.ts") if not file.name.endswith(".test.ts")):
        for target in re.findall(r"""from\s+['"](\.[^'"]+)['"]""", file.read_text("utf-8")):
            place = (file.parent / target).resolve()
            if place.is_relative_to(FRONTEND) and place.relative_to(FRONTEND).parts[0] not in allowed:
                wrong.append(f"{file.relative_to(FRONTEND)} imports {target}")
    assert wrong == []


def test_only_the_sender_and_the_desk_fetch():
    fetching = {file.relative_to(FRONTEND).parts[0] for file in FRONTEND.rglob("*")
                if file.suffix in {".ts", ".svelte"} and not file.name.endswith(".test.ts")
                and re.search(r"(?<![\w.])fetch\(", file.read_text("utf-8"))}
    assert fetching <= {"sync", "desk", "offline"}


def test_only_the_store_opens_the_phone_s_database():
    opening = {file.relative_to(FRONTEND).parts[0] for file in FRONTEND.rglob("*")
               if file.suffix in {".ts", ".svelte"} and not file.name.endswith(".test.ts")
               and re.search(r"from 'idb'|indexedDB\.", file.read_text("utf-8"))}
    assert opening <= {"store"}


def test_the_top_level_holds_what_the_design_names():
    top = {name.split("/")[0] for name in tracked_files()}
    assert {name for name in top if not name.startswith(".")} == TOP_LEVEL


def test_every_setting_is_listed_for_developers():
    folders = (BASE / "inspections", BASE / "tests" / "journeys")
    code = "".join(file.read_text("utf-8") for folder in folders for file in folder.rglob("*.py"))
    named = set(re.findall(r"""["'](UNDERLID_[A-Z0-9_]+|DATABASE_URL|REDIS_URL)["']""", code))
    page = (BASE / "DEVELOPERS.md").read_text("utf-8")
    listed = set(re.findall(r"`(UNDERLID_[A-Z0-9_]+|DATABASE_URL|REDIS_URL)`", page))
    assert named - listed == set()
    assert listed - named == set()


def test_every_dependency_has_its_line_for_developers():
    import tomllib

    project = tomllib.loads((BASE / "pyproject.toml").read_text("utf-8"))
    wanted = [re.split(r"[\[=]", pin)[0] for pin in
              project["project"]["dependencies"] + project["dependency-groups"]["test"]]
    page = (BASE / "DEVELOPERS.md").read_text("utf-8")
    assert [name for name in wanted if f"`{name}`" not in page] == []


@pytest.mark.django_db
def test_every_model_change_has_its_migration():
    call_command("makemigrations", "--check", "--dry-run", verbosity=0)


@pytest.mark.parametrize("command", ["python3 manage.py start", "python3 manage.py test"])
def test_the_readme_shows_both_commands(command):
    assert command in (BASE / "README.md").read_text("utf-8")


def test_a_temperature_is_followed_from_the_phone_to_the_comparison_in_functions_that_exist():
    page = (BASE / "DEVELOPERS.md").read_text("utf-8")
    part = page.partition("## A temperature, from the phone to the comparison")[2].partition("\n## ")[0]
    hops = re.findall(r"^\d+\. `(\w+)` \(`([^`]+)`\)", part, re.M)
    assert 1 < len(hops) <= 10
    for name, file in hops:
        made = rf"(\bdef |\bfunction |^  (async )?#?){name}\("
        assert re.search(made, (BASE / file).read_text("utf-8"), re.M), (name, file)
