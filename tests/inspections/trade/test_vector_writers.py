"""The files of vectors are what their writers write: nobody changes an answer by hand."""

import importlib.util
import json
from pathlib import Path
from types import ModuleType

import pytest

VECTORS = Path(__file__).resolve().parents[3] / "fixtures" / "vectors"
WRITTEN = {
    "write_numbers": ("quantities", "counts", "glaze", "sampling", "temperature", "intervals"),
    "write_verdicts": ("condition", "plain", "species", "labels", "wording", "verdict", "judged", "judgement", "why"),
    "write_scans": ("scans",),
}


def writer(name: str, folder: Path) -> ModuleType:
    """A writer that writes into another folder."""
    spec = importlib.util.spec_from_file_location(name, VECTORS / f"{name}.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    module.HERE = folder
    return module


@pytest.mark.parametrize("name", WRITTEN)
def test_a_writer_writes_what_is_there(name, tmp_path):
    writer(name, tmp_path).main()
    assert {file.stem for file in tmp_path.iterdir()} == set(WRITTEN[name])
    for stem in WRITTEN[name]:
        again = json.loads((tmp_path / f"{stem}.json").read_text(encoding="utf-8"))
        assert again == json.loads((VECTORS / f"{stem}.json").read_text(encoding="utf-8")), stem
