"""The plain scikit-image writing that the advisory's speed is compared with does the same work."""

from fixtures.scenes import SceneRequest, draw_scene
from imaging.advice import analyse
from inspections.records.management.commands.bench_advisory import CONTEXT, plain_analysis


def test_the_plain_writing_counts_black_and_no_shade_as_the_method_does():
    """It leaves out a few small factors, so shares are near and not equal."""
    wanted = {"card": True, "width": 1600, "height": 1200}
    black = draw_scene(SceneRequest(seed=411, dark_share=0.3, dark_kind="spots", **wanted)).jpeg
    clean = draw_scene(SceneRequest(seed=412, **wanted)).jpeg
    for count in (plain_analysis, lambda photo: analyse(photo, CONTEXT).darkness.raw_share):
        assert count(clean) < 0.02
        assert 0.1 < count(black) < 0.4
