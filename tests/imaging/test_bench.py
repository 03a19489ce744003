"""The plain scikit-image writing that the advice's speed is compared with does the same work."""

from fixtures.scenes import draw_scene
from imaging.advice import advise
from inspections.development.management.commands.bench_advisory import CONTEXT, plain_analysis
from tests.imaging.laid_out import request


def test_the_plain_writing_finds_black_darker_than_clean_as_the_method_does():
    black, clean = (
        draw_scene(request(2, "D65", card=False, dark=dark, dark_share=0.3 if dark else 0.0)).jpeg
        for dark in (True, False)
    )
    for figure in (plain_analysis, lambda photo: advise(photo, CONTEXT)["figure"]):
        assert figure(black) > figure(clean) + 0.05
