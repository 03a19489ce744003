"""How fast the photo advisory is, beside a plain full decode and a plain writing of the same method."""

import multiprocessing
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import cv2
import numpy as np
from django.core.management.base import BaseCommand, CommandError

from imaging.advice import Context, advise
from imaging.card_print import card_picture

WIDTH, HEIGHT = 4000, 3000
CONTEXT = Context("PNV", "HLSO", "raw")
PEAK = """
import sys
from imaging.advice import Context, advise
advise(open(sys.argv[1], "rb").read(), Context("PNV", "HLSO", "raw"))
print(next(line for line in open("/proc/self/status") if line.startswith("VmHWM")).split()[1])
"""


class Command(BaseCommand):
    help = "Measure the photo advisory on a 12-megapixel JPEG: your own, or one drawn here."

    def add_arguments(self, parser):
        parser.add_argument("photo", nargs="?", type=Path, help="a JPEG of about 12 megapixels")
        parser.add_argument("--rounds", type=int, default=15)
        parser.add_argument("--skip-plain", action="store_true", help="leave out the plain scikit-image writing")

    def handle(self, *args, **options):
        data = options["photo"].read_bytes() if options["photo"] else drawn_photo()
        rounds = max(3, options["rounds"])
        decode_ms, analysis_ms = side_by_side_ms(
            lambda: cv2.imdecode(np.frombuffer(data, np.uint8), cv2.IMREAD_COLOR),
            lambda: advise(data, CONTEXT),
            rounds,
        )
        self._row("photo", f"{len(data) / 1e6:.2f} MB, answer: {type(advise(data, CONTEXT)).__name__}")
        self._row("full decode by OpenCV", f"{decode_ms:.1f} ms")
        self._row("whole analysis", f"{analysis_ms:.1f} ms = {analysis_ms / decode_ms:.2f} x the decode (goal 1.0)")
        if not options["skip_plain"]:
            plain_ms, _ = side_by_side_ms(lambda: plain_analysis(data), lambda: advise(data, CONTEXT), 3)
            self._row("same, plain scikit-image", f"{plain_ms:.0f} ms = {plain_ms / analysis_ms:.1f} x ours (goal 10)")
        for workers in (1, 2):
            self._row(f"photos a second, {workers} worker(s)", f"{photos_a_second(data, workers, rounds):.1f}")
        self._row("peak memory of a process", peak_memory(data))

    def _row(self, name: str, value: str) -> None:
        self.stdout.write(f"{name:<32} {value}")


def side_by_side_ms(one, other, rounds: int) -> tuple[float, float]:
    """Median wall-clock times of two calls, ms, taken in turn so that a busy machine slows both alike."""
    times: tuple[list[float], list[float]] = ([], [])
    one(), other()
    for _ in range(rounds):
        for what, kept in zip((one, other), times, strict=True):
            start = time.perf_counter()
            what()
            kept.append((time.perf_counter() - start) * 1000)
    return statistics.median(times[0]), statistics.median(times[1])


def drawn_photo() -> bytes:
    """A 12-megapixel JPEG of prawn-like shapes with the reference card, with a phone's grain."""
    chance = np.random.default_rng(20)
    photo = np.full((HEIGHT, WIDTH, 3), (196, 190, 182), np.uint8)
    for _ in range(420):
        centre = (int(chance.integers(WIDTH)), int(chance.integers(HEIGHT)))
        grey = chance.normal(0, 12)
        body = [int(v) for v in np.clip(np.array((118, 128, 138)) + grey, 0, 255)]
        turn, sweep = int(chance.integers(360)), int(chance.integers(120, 220))
        for width, colour in ((150, [v // 3 for v in body]), (130, body), (40, [min(255, v + 35) for v in body])):
            cv2.ellipse(photo, centre, (190, 170), turn, 0, sweep, colour, width, cv2.LINE_AA)
    card = np.asarray(card_picture(8))[..., ::-1]
    photo[300 : 300 + card.shape[0], 500 : 500 + card.shape[1]] = card
    photo = cv2.GaussianBlur(photo, (0, 0), 1.5).astype(np.int16)
    photo += chance.normal(0, 4, photo.shape).astype(np.int16)
    return cv2.imencode(".jpg", np.clip(photo, 0, 255).astype(np.uint8), [cv2.IMWRITE_JPEG_QUALITY, 90])[1].tobytes()


def _many(task: tuple[bytes, int]) -> None:
    cv2.setNumThreads(1)
    data, rounds = task
    for _ in range(rounds):
        advise(data, CONTEXT)


def photos_a_second(data: bytes, workers: int, rounds: int) -> float:
    """Photos a second over worker processes, without the time that they need to start."""
    with multiprocessing.get_context("spawn").Pool(workers) as pool:
        pool.map(_many, [(data, 1)] * workers, chunksize=1)
        start = time.perf_counter()
        pool.map(_many, [(data, rounds)] * workers, chunksize=1)
        return workers * rounds / (time.perf_counter() - start)


def peak_memory(data: bytes) -> str:
    """Peak resident memory of a fresh process that analyses the photo once."""
    if not Path("/proc/self/status").exists():
        return "not measured: this system does not tell it"
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "photo.jpg"
        file.write_bytes(data)
        run = subprocess.run([sys.executable, "-c", PEAK, str(file)], capture_output=True, text=True, check=True)
    return f"{int(run.stdout) / 1024:.0f} MB"


def plain_analysis(data: bytes) -> float:
    """The same steps, written plainly with scikit-image and SciPy; the dark share, before correction."""
    try:
        from skimage import color, io, measure, transform
    except ImportError as missing:
        raise CommandError("scikit-image is not installed. Install the test list, or add --skip-plain.") from missing
    import io as streams

    from imaging import card

    photo = io.imread(streams.BytesIO(data))
    photo = transform.resize(photo, (750, 1000), anti_aliasing=True)
    measure.blur_effect(transform.resize(color.rgb2gray(photo), (480, 640), anti_aliasing=True), h_size=9)
    card.find_card((color.rgb2gray(photo) * 255).astype(np.uint8))
    lab = color.rgb2lab(transform.resize(photo, (375, 500), anti_aliasing=True))
    prawn = transform.resize(_plain_prawn(lab).astype(float), (750, 1000)) > 0.5
    return _plain_dark_share(color.rgb2lab(photo)[..., 0], lab, prawn)


def _plain_prawn(lab: np.ndarray) -> np.ndarray:
    """Prawn surface: bell curves on squares, then the colours of this photo at the outlines."""
    from scipy import ndimage
    from skimage import morphology, transform

    from imaging import likeness, regions

    mean = ndimage.uniform_filter(lab[..., 0], 9)
    spread = np.sqrt(np.maximum(ndimage.uniform_filter(lab[..., 0] ** 2, 9) - mean**2, 0))
    cells = transform.downscale_local_mean(np.dstack([lab, np.log2(1 + spread)])[:372], (4, 4, 1))
    baseline = CONTEXT.look()
    _, middles, spreads = likeness.surroundings()
    bells = [
        -0.5 * (((cells - middle) / width) ** 2).sum(axis=2) - np.log(width).sum()
        for middle, width in zip(
            [np.array([*baseline.lab, likeness.PRAWN_ROUGH[0]]), *middles],
            [np.array([*baseline.spread, likeness.PRAWN_ROUGH[1]]), *spreads],
            strict=True,
        )
    ]
    ratio = ndimage.gaussian_filter(np.clip(bells[0] - np.max(bells[1:], axis=0), -4, 4), 1.6)
    found = morphology.remove_small_objects(ratio > 0, max_size=22)
    ranges = [(0, 102), (-40, 60), (-40, 60)]
    by_cell = [np.histogramdd(cells[part][:, :3], bins=(17, 25, 25), range=ranges)[0] for part in (found, ~found)]
    shares = [ndimage.gaussian_filter(counts, 1) + 0.05 / max(1, counts.sum()) for counts in by_cell]
    bins = [
        np.clip(np.digitize(lab[..., i], np.linspace(*ranges[i], n + 1)) - 1, 0, n - 1)
        for i, n in enumerate((17, 25, 25))
    ]
    fine = ndimage.gaussian_filter(np.clip(np.log(shares[0] / shares[1])[tuple(bins)], -4, 4), 1)
    coarse = transform.resize(ratio, lab.shape[:2])
    return regions.CELL_PART * coarse + regions.COLOUR_PART * fine > 0


def _plain_dark_share(lightness: np.ndarray, lab: np.ndarray, prawn: np.ndarray) -> float:
    """Places deeper than half the contrast, each weighed by its rim, its inside, what lies around, colour and size."""
    from skimage import measure, morphology

    from imaging import places

    depth, own = _plain_depth(lightness, prawn)
    unit = float(np.clip(np.percentile(depth[prawn], 98), *places.CONTRASTS)) if prawn.any() else 1.0
    dark = depth > places.DARK * unit
    images = {
        "depth": depth,
        "colour": _plain_colour(lab, own, lightness.shape),
        "palest": morphology.erosion(depth, morphology.disk(places.REACH // 2)),
        "around": _plain_around(depth, prawn & ~dark),
    }
    images["fall"] = morphology.dilation(depth, morphology.disk(places.REACH // 2)) - images["palest"]
    signs = [_plain_signs(place, images, unit) for place in measure.regionprops(measure.label(dark, connectivity=1))]
    area, odds, closed, unlit = np.array(signs or [(1.0, -20.0, 0.0, 0.0)]).T
    whole = max(1, prawn.sum())
    odds += places.START + places.PHOTO_UNLIT_WORTH * (area @ unlit) / area.sum()
    odds += places.COVER_WORTH * dark.sum() / whole + places.SIZE_WORTH * np.log(10_000 * area / whole)
    part = np.clip(area @ (closed / (1 + np.exp(-odds))) / area.sum(), 0.002, 0.98)
    odds += np.log(part / (1 - part)) - np.log(places.USUAL_PART / (1 - places.USUAL_PART))
    return float(area @ (closed / (1 + np.exp(-odds))) / whole)


def _plain_depth(lightness: np.ndarray, prawn: np.ndarray) -> tuple[np.ndarray, float]:
    """How far the log of the light lies below the prawns' own, and their own L*."""
    from scipy import ndimage
    from skimage import morphology

    lightness = ndimage.median_filter(morphology.opening(lightness, morphology.disk(1)), 3)
    own = np.percentile(lightness[prawn], 75) if prawn.any() else 50.0
    sound = prawn & (lightness > 0.8 * own)
    weight = ndimage.uniform_filter(sound.astype(float), 167) + 0.05
    local = (ndimage.uniform_filter(np.where(sound, lightness, 0), 167) + 0.05 * own) / weight
    local = np.clip(local, 0.8 * own, 1.15 * own)
    return np.where(prawn, np.maximum(np.log((local + 16) / (lightness + 16)), 0), 0), own


def _plain_around(depth: np.ndarray, shell: np.ndarray) -> np.ndarray:
    """Mean depth of the shell around each pixel."""
    from scipy import ndimage

    from imaging import places

    weight = ndimage.uniform_filter(shell.astype(float), places.AROUND) + 0.02
    return ndimage.uniform_filter(np.where(shell, depth, 0), places.AROUND) / weight


def _plain_signs(place, images: dict[str, np.ndarray], unit: float) -> tuple[float, float, float, float]:
    """Area, log odds of its own signs, how far the rim is closed, and how unlit it is."""
    from skimage import morphology

    from imaging import places

    rim = place.image & ~morphology.erosion(np.pad(place.image, 1))[1:-1, 1:-1]
    inside = {name: image[place.slice][place.image] for name, image in images.items()}
    at_rim = {name: image[place.slice][rim] for name, image in images.items()}
    unlit = (at_rim["palest"] - at_rim["around"]).mean() / unit
    odds = (
        places.STEPPED_WORTH * (at_rim["fall"] > places.STEP * unit).mean()
        + places.UNLIT_WORTH * unlit
        + places.UNEVEN_WORTH * inside["fall"].mean() / unit
        + places.SPREAD_WORTH * inside["depth"].std()
        + places.HOLE_WORTH * (inside["depth"] > places.HOLE).mean()
        + places.COLOUR_WORTH * inside["colour"].mean()
    )
    is_open = (at_rim["fall"] < places.OPEN * unit).mean()
    closed = np.clip((places.OPEN_RIM - is_open) / (places.OPEN_RIM - places.CLOSED_RIM), 0, 1)
    return float(place.area), float(odds), float(closed), float(unlit)


def _plain_colour(lab: np.ndarray, own: float, shape: tuple[int, int]) -> np.ndarray:
    """C*ab by L* + 16, above that of the lit shell around."""
    from scipy import ndimage
    from skimage import transform

    by_light = ndimage.uniform_filter(lab[..., 1:] / (lab[..., :1] + 16), (3, 3, 1))
    lit = ((lab[..., 0] > 0.8 * own) & (lab[..., 0] < 1.2 * own)).astype(float)
    around = ndimage.uniform_filter(lit, 31) + 0.05
    shell = ndimage.uniform_filter(by_light * lit[..., None], (31, 31, 1)) / around[..., None]
    above = np.hypot(by_light[..., 0], by_light[..., 1]) - np.hypot(shell[..., 0], shell[..., 1])
    return transform.resize(above, shape)
