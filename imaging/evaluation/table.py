"""Outcomes as a table of plain text."""

from collections.abc import Iterable, Sequence

import numpy as np

from .labels import LABELS, Problem
from .measures import Auc, Rate, auc, share_error
from .trials import ANSWERS, Outcome

FEW, MANY = 0.02, 0.10  # shares that count as not dark, and as dark, where the share is known


def report(outcomes: Sequence[Outcome], problems: Sequence[Problem] = (), *, title: str = "All photos") -> str:
    """Everything that ``evaluate_advisory`` prints.

    Parameters
    ----------
    outcomes : sequence of Outcome
    problems : sequence of Problem
        Rows that could not be used.
    title : str

    Returns
    -------
    str
        Lines of at most about 110 characters.
    """
    judged = [one for one in outcomes if not one.problem]
    lines = [f"{title}: {len(judged)} judged", ""]
    lines += _answers(judged) + [""] + _figures(judged)
    lines += _grouped("Clean photos flagged, by species", (o for o in judged if o.label == "clean"), "species")
    lines += _grouped("Cannot tell, by group", judged, "group", answer="cannot_tell")
    lines += _reasons(judged)
    return "\n".join(lines + _problems(outcomes, problems))


def _answers(judged: Sequence[Outcome]) -> list[str]:
    lines = [f"{'label':<12}" + "".join(f"{answer:>26}" for answer in ANSWERS) + f"{'photos':>9}"]
    for label in LABELS:
        of_label = [one for one in judged if one.label == label]
        cells = [_rate(Rate(sum(one.answer == answer for one in of_label), len(of_label))) for answer in ANSWERS]
        lines.append(f"{label:<12}" + "".join(f"{cell:>26}" for cell in cells) + f"{len(of_label):>9}")
    return lines


def _rate(rate: Rate) -> str:
    if rate.share is None:
        return "no photo"
    low, high = rate.interval
    return f"{100 * rate.share:.1f} % ({100 * low:.1f} to {100 * high:.1f})"


def _figures(judged: Sequence[Outcome]) -> list[str]:
    told = [one for one in judged if one.label != "not_prawn" and one.share is not None]
    untold = sum(one.label != "not_prawn" for one in judged) - len(told)
    lines = [f"Photos of prawns without a share (left out of what follows): {untold}"]
    answered = [one for one in told if one.answer != "cannot_tell"]
    for words, some in (("Answered", answered), ("With a share, cannot tell among them", told)):
        lines += [f"{words}: {len(some)} photos of prawns", *("  " + line for line in _trust(some))]
    return lines + [_time_line(judged)]


def _trust(told: Sequence[Outcome]) -> list[str]:
    """How far the shares of some photos can be trusted."""
    by_label = [[o.share for o in told if o.label == label] for label in ("dark", "clean")]
    lines = [_auc_line("AUC, dark against clean", auc(*by_label))]
    known = [one for one in told if one.truth_share is not None]
    if known:
        many = [o.share for o in known if o.truth_share >= MANY]
        few = [o.share for o in known if o.truth_share <= FEW]
        lines.append(_auc_line(f"AUC, {MANY:.0%} dark and more against {FEW:.0%} and less", auc(many, few)))
        error = share_error([o.share for o in known], [o.truth_share for o in known])
        lines.append(
            f"Share error: median {100 * error.median:.2f} points, 90th percentile {100 * error.p90:.2f}, "
            f"mean difference {100 * error.bias:+.2f} ({error.photos} photos)"
        )
        lines.append(f"Known share inside the stated range: {_rate(_inside(known))}")
    return lines


def _inside(known: Iterable[Outcome]) -> Rate:
    ranged = [one for one in known if one.low is not None and one.high is not None]
    return Rate(sum(one.low <= one.truth_share <= one.high for one in ranged), len(ranged))


def _auc_line(words: str, area: Auc | None) -> str:
    if area is None:
        return f"{words}: not enough photos (two of each are needed)"
    return (
        f"{words}: {area.area:.4f} ({area.low:.4f} to {area.high:.4f}, DeLong 95 %; "
        f"{area.positives} against {area.negatives} photos)"
    )


def _time_line(judged: Sequence[Outcome]) -> str:
    if not judged:
        return "Time: no photo was judged"
    seconds = np.array([one.seconds for one in judged])
    cards = sum(one.card_used for one in judged)
    return (
        f"Time a photo: median {1000 * np.median(seconds):.0f} ms, 90th percentile "
        f"{1000 * np.quantile(seconds, 0.9):.0f} ms. Card used in {cards} of {len(judged)}"
    )


def _grouped(words: str, outcomes: Iterable[Outcome], by: str, *, answer: str = "darkening_seen") -> list[str]:
    groups: dict[str, list[Outcome]] = {}
    for one in outcomes:
        groups.setdefault(getattr(one, by), []).append(one)
    if set(groups) <= {""}:
        return []
    rows = [
        f"  {name or '-':<10}{_rate(Rate(sum(o.answer == answer for o in members), len(members))):>26}{len(members):>9}"
        for name, members in sorted(groups.items())
    ]
    return ["", words, *rows]


def _reasons(judged: Sequence[Outcome]) -> list[str]:
    counts: dict[str, int] = {}
    for one in judged:
        if one.answer == "cannot_tell":
            for code in one.reasons:
                counts[code] = counts.get(code, 0) + 1
    if not counts:
        return []
    ordered = sorted(counts.items(), key=lambda item: (-item[1], item[0]))
    return ["", "Reasons given where it could not tell", *(f"  {code:<30}{count:>6}" for code, count in ordered)]


def _problems(outcomes: Sequence[Outcome], problems: Sequence[Problem]) -> list[str]:
    unread = [Problem(one.name, one.problem) for one in outcomes if one.problem]
    everything = [*problems, *unread]
    if not everything:
        return []
    heading = f"Left out: {len(problems)} rows of labels.csv, {len(unread)} photos that could not be read"
    return ["", heading, *(f"  {problem.where}: {problem.sentence}" for problem in everything)]
