"""Python that no screen, command, API or task reaches: what vulture finds, less what is kept for a reason.

Looked at are functions, classes and methods. Fields are not: those of models, settings and dataclasses are read by
frameworks and templates, by names that no reader of code can follow. ``frontend/knip.jsonc`` is the same for the app.
"""
from pathlib import Path

BASE = Path(__file__).resolve().parents[2]
#: Called by a framework, by name.
FRAMEWORK = (
    "Meta", "Command", "add_arguments", "*Config", "*Admin",  # Django: models, commands, apps, admin
    "post", "validate_*", "clean_data", "typed", "save_model", "has_*_permission",  # views and admin
    "create_superuser", "get_full_name", "get_short_name", "has_perms", "has_module_perms",  # a custom user model
    "bulk_update",  # the manager of rows that are written once forbids it
    "DurableFiles", "get_available_name", "_save",  # named in the settings as the storage, called by it
    "not_found", "bad_request",  # handler404 and handler400, named as text
    "OwnAddress", "Slowed", "get_failures", "KeptSessions", "Compressed", "PinBackend", "PasskeyBackend",
    "WithRequestId",
    "WithoutTokens", "Traced", "OneForm", "select_renderer",  # named in the settings as text
    "work_through", "_begin_to_sweep", "begin_to_mail", "collect",  # registered with Celery and Prometheus
    "is_staff",  # asked by the stock administration
    "get_invalid_login_error",  # asked by Django's form for signing in
    "redirect_request",  # called by urllib where an answer leads elsewhere
    "visit_*",  # called by Fluent's reader for each part of a message
    "ready",  # called when the application has loaded
)
#: Name: why it stays although nothing here calls it.
KEPT = {
    "chance_of_seeing_one": "for the two-stage plan",
    "cartons_to_see_one": "for the two-stage plan",
    "cartons_worth": "for the two-stage plan",
    "is_accepted": "for the two-stage plan",
    "chance_of_passing": "the chances on the page about sampling are held to it",
    "operating_characteristic": "for the two-stage plan",
    "clopper_pearson": "for intervals on the desk of limits that are tried out",
    "claim_amount": "claims are reckoned in Decimal (claims/amounts); vectors hold both languages to CV-4-09 by it",
    "score_by_prevalence": "the phone shows the mirror; this is the authority",
    "explain_count": "the phone shows the mirror; this is the authority",
    "explain_sample": "the phone shows the mirror; this is the authority",
    "next_question": "the species key of the phone is the mirror; this is the authority",
    "marks_to_check": "the species key of the phone is the mirror; this is the authority",
    "illuminant_names": "tests go through all lights of the invented photos",
    "minutes_out": "for one clock of the minutes out of the cold",
}


def unreached(base: Path = BASE) -> tuple[list[str], list[str]]:
    """What nothing reaches, one line each; and names of ``KEPT`` that are reached or gone, whose reason is over."""
    from vulture import Vulture

    finder = Vulture(ignore_names=list(FRAMEWORK), ignore_decorators=["@admin.*", "@receiver*"])
    finder.scavenge([base / name for name in ("inspections", "imaging", "fixtures", "manage.py")], ["*/migrations/*"])
    kinds = {"function", "class", "method", "property", "import", "unreachable_code"}
    found = [item for item in finder.get_unused_code(min_confidence=60) if item.typ in kinds]
    lines = [f"{item.filename.relative_to(base)}:{item.first_lineno}: {item.message}"
             for item in found if item.name not in KEPT]
    return lines, sorted(set(KEPT) - {item.name for item in found})


def check() -> bool:
    """Print what nothing reaches; whether there is none, and no reason is over."""
    lines, over = unreached()
    for line in lines:
        print(f"{line}: nothing reaches it. Delete it with its tests, or name it with its reason in dead_code.py.")
    for name in over:
        print(f"{name}: is reached or gone. Take it out of the list in dead_code.py.")
    return not lines and not over
