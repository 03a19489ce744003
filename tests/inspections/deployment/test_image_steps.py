"""The container file's steps as ``manage.py image_steps`` runs them; the whole of it takes minutes and is a command."""
import pytest

from inspections.development import image_steps
from inspections.development.image_steps import CONTAINER_FILE, Failed, Stage, build, parted, steps_of

SMALL = r"""# A comment that names no step.
FROM base AS app
WORKDIR /underlid
COPY frontend/package.json frontend/package-lock.json frontend/
COPY inspections/trade inspections/trade
RUN mkdir dist \
 && useradd underlid && echo built > dist/app.js
FROM other
WORKDIR /underlid
COPY manage.py pyproject.toml ./
COPY requirements.txt .
COPY --from=app /underlid/dist app/dist
ENV UNDERLID_DATA=/data ONE=1
RUN mkdir -p "$UNDERLID_DATA" /tmp/build && echo "$ONE" > /tmp/build/one
USER underlid
CMD ["sh", "-c", "python manage.py migrate && exec serve"]
"""


@pytest.fixture
def small(tmp_path, monkeypatch):
    file = tmp_path / "Containerfile"
    file.write_text(SMALL)
    monkeypatch.setattr(image_steps, "CONTAINER_FILE", file)
    return tmp_path / "image"


def test_stages_are_folders_with_what_was_copied_and_made(small, capsys):
    last, command = build(small)
    assert command == "python manage.py migrate && exec serve"
    app, underlid = small / "app" / "underlid", small / "last" / "underlid"
    assert {path.name for path in (app / "frontend").iterdir()} == {"package.json", "package-lock.json"}
    assert (app / "inspections" / "trade" / "temperature.py").exists()
    assert {path.name for path in underlid.iterdir()} == {"manage.py", "pyproject.toml", "requirements.txt", "app"}
    assert (underlid / "app" / "dist" / "app.js").read_text() == "built\n"
    assert (small / "last" / "data").is_dir()
    assert (small / "last" / "tmp" / "build" / "one").read_text() == "1\n"
    assert "left out, it changes the system: useradd underlid" in capsys.readouterr().out
    assert last.variables()["UNDERLID_DATA"] == str(small / "last" / "data")


def test_a_step_that_fails_is_named(small):
    image_steps.CONTAINER_FILE.write_text("FROM base\nWORKDIR /underlid\nRUN false\n")
    with pytest.raises(Failed, match="“false” ended with 1"):
        build(small)


def test_every_instruction_of_the_container_file_is_known(monkeypatch, tmp_path):
    monkeypatch.setattr(Stage, "__init__", lambda self, root: vars(self).update(root=root, folder=root, environment={}))
    monkeypatch.setattr(Stage, "copy", lambda *given: None)
    run = []
    monkeypatch.setattr(Stage, "run", lambda self, command: run.append(command))
    _, command = build(tmp_path)
    asked = [rest for instruction, rest in steps_of(CONTAINER_FILE.read_text("utf-8")) if instruction == "RUN"]
    assert run == [" && ".join(parted(rest)[0]) for rest in asked if parted(rest)[0]]
    assert any("npm run build" in one for one in run)
    assert any("collectstatic" in one for one in run)
    assert "exec python -m inspections.deployment.web" in command


def test_a_folder_that_is_not_empty_is_left_alone(tmp_path, capsys):
    (tmp_path / "kept.txt").write_text("kept")
    assert image_steps.main([str(tmp_path)]) == 1
    assert "is not empty. Nothing was done." in capsys.readouterr().err
    assert [path.name for path in tmp_path.iterdir()] == ["kept.txt"]
