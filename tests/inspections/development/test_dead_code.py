"""The stage that looks for code that nothing reaches finds it, and asks for reasons that are over to be taken out."""
from inspections.development import dead_code


def test_nothing_is_unreached_but_what_is_kept_for_a_reason():
    lines, over = dead_code.unreached()
    assert lines == []
    assert over == []
    assert all(len(reason) > 10 for reason in dead_code.KEPT.values())


def test_a_function_that_nothing_calls_is_found(tmp_path):
    for name in ("inspections", "imaging", "fixtures"):
        (tmp_path / name).mkdir()
    (tmp_path / "manage.py").write_text("from inspections.one import called\n\ncalled()\n")
    (tmp_path / "inspections" / "one.py").write_text(
        "def called():\n    return 1\n\n\ndef forgotten():\n    return 2\n\n\nclass OneConfig:\n    pass\n"
    )
    lines, over = dead_code.unreached(tmp_path)
    assert lines == ["inspections/one.py:5: unused function 'forgotten'"]
    assert "claim_amount" in over
