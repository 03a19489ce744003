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
        self._row("photo", f"{len(data) / 1e6:.2f} MB, pieces: {advise(data, CONTEXT)['pieces']}")
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
    """A 12-megapixel JPEG of prawn-like shapes side by side with the reference card, with a phone's grain."""
    chance = np.random.default_rng(20)
    photo = np.full((HEIGHT, WIDTH, 3), (196, 190, 182), np.uint8)
    for column, row in np.ndindex(5, 4):
        if column > 2 and row < 2:
            continue  # the card lies there
        centre = (450 + 780 * column, 380 + 740 * row)
        body = [int(v) for v in np.clip(np.array((98, 108, 118)) + chance.normal(0, 12), 0, 255)]
        turn, sweep = int(chance.integers(360)), int(chance.integers(120, 220))
        for width, colour in ((150, [v // 2 for v in body]), (130, body), (40, [min(255, v + 35) for v in body])):
            cv2.ellipse(photo, centre, (190, 170), turn, 0, sweep, colour, width, cv2.LINE_AA)
    card = np.asarray(card_picture(8))[..., ::-1]
    photo[300 : 300 + card.shape[0], 2500 : 2500 + card.shape[1]] = card
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
    """The same steps, written plainly with scikit-image and SciPy; the figure of the darkest piece."""
    try:
        from skimage import color, io, measure, morphology, transform
    except ImportError as missing:
        raise CommandError("scikit-image is not installed. Install the test list, or add --skip-plain.") from missing
    import io as streams

    from imaging import card

    photo = transform.resize(io.imread(streams.BytesIO(data)), (750, 1000), anti_aliasing=True)
    grey = color.rgb2gray(photo)
    measure.blur_effect(transform.resize(grey, (480, 640), anti_aliasing=True), h_size=9)
    card.find_card((grey * 255).astype(np.uint8))
    found = _plain_pieces(transform.resize(photo, (375, 500), anti_aliasing=True))
    lightness = color.rgb2lab(photo)[..., 0]
    best = 0.0
    for piece in measure.regionprops(measure.label(found, connectivity=1)):
        reach = morphology.disk(max(1, round(0.06 * piece.area**0.5)))
        body = morphology.opening(np.pad(piece.image_filled, len(reach)), reach)[len(reach) : -len(reach)]
        body = body[:, len(reach) : -len(reach)]
        if piece.area > 0.002 * found.size and body.any():
            top, left, bottom, right = (2 * edge for edge in piece.bbox)
            best = max(best, _plain_contrast(lightness[top:bottom, left:right], body))
    return best


def _plain_pieces(photo: np.ndarray) -> np.ndarray:
    """What is unlike the colours along the frame, holes filled."""
    from scipy import cluster, ndimage
    from skimage import color, filters, morphology

    lab = color.rgb2lab(ndimage.median_filter(photo, (5, 5, 1)))
    above = np.maximum(lab[..., :1], 0) + 16
    features = np.dstack([30 * np.log(above), 70 * lab[..., 1:] / above])
    rim = np.ones(lab.shape[:2], bool)
    rim[15:-15, 15:-15] = False
    middles, _ = cluster.vq.kmeans2(features[rim][::11], 5, seed=1, minit="++")
    spread = features[rim].std(axis=0) + (3, 1.5, 1.5)
    distance = np.min([np.sqrt((((features - middle) / spread) ** 2).sum(axis=2)) for middle in middles], axis=0)
    found = morphology.closing(distance > np.clip(filters.threshold_otsu(distance), 1, 7), morphology.disk(2))
    return ndimage.binary_fill_holes(found)


def _plain_contrast(lightness: np.ndarray, body: np.ndarray) -> float:
    """Strongest contrast of a disc against the ring around it, inside the rim."""
    from scipy import ndimage, signal
    from skimage import morphology, transform

    scale = 64 / body.sum() ** 0.5
    size = tuple(max(1, round(side * scale)) for side in body.shape)
    inside = transform.resize(body.astype(float), size) > 0.5
    logs = np.log(transform.resize(lightness, size, anti_aliasing=True) + 16) * inside
    ring = morphology.disk(16).astype(float)
    ring[10:-10, 10:-10] -= morphology.disk(6)
    means = [
        signal.fftconvolve(logs, kernel, "same") / np.maximum(signal.fftconvolve(1.0 * inside, kernel, "same"), 1)
        for kernel in (ring, morphology.disk(4).astype(float))
    ]
    room = ndimage.distance_transform_edt(np.pad(inside, 1))[1:-1, 1:-1] >= 0.13 * 64
    return float((means[0] - means[1])[room].max(initial=0.0))
