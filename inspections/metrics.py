"""Figures for Prometheus: how long requests take, and how worker, disk and backups stand.

Read by whoever knows ``UNDERLID_METRICS_TOKEN`` (``Authorization: Bearer …``); without that setting there is no such
page. Several web processes add their requests up in files (``PROMETHEUS_MULTIPROC_DIR``, set by the web server).
"""
import hmac
import os
from collections.abc import Iterator
from datetime import UTC, datetime

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from prometheus_client import CONTENT_TYPE_LATEST, REGISTRY, CollectorRegistry, generate_latest
from prometheus_client.core import GaugeMetricFamily
from prometheus_client.multiprocess import MultiProcessCollector

from inspections.health import health


class Standing:
    """What ``/health`` tells, as gauges, looked up when asked for."""

    def collect(self) -> Iterator[GaugeMetricFamily]:
        found = health()
        figures = {
            "jobs_waiting": ("Photos that wait for the worker.", found.queue.waiting),
            "jobs_parked": ("Photos that the worker gave up.", found.queue.parked),
            "oldest_job_seconds": ("How long the oldest photo has waited.", found.queue.oldest_s),
            "worker_stands_still": ("1 when photos wait and none is finished.", int(found.queue.stands_still)),
            "free_bytes": ("Room on the disk of the data folder.", found.free_bytes),
        }
        if found.last_backup:
            age = datetime.now(UTC) - datetime.fromisoformat(found.last_backup)
            figures["backup_age_seconds"] = ("Since the last backup.", age.total_seconds())
        for name, (words, value) in figures.items():
            yield GaugeMetricFamily(f"underlid_{name}", words, value=value)


def metrics(request: HttpRequest) -> HttpResponse:
    """The page that Prometheus reads."""
    wanted = f"Bearer {settings.METRICS_TOKEN}"
    if not settings.METRICS_TOKEN or not hmac.compare_digest(request.headers.get("Authorization", ""), wanted):
        raise Http404
    requests = REGISTRY
    if os.environ.get("PROMETHEUS_MULTIPROC_DIR"):
        requests = CollectorRegistry()
        MultiProcessCollector(requests)
    standing = CollectorRegistry(auto_describe=False)
    standing.register(Standing())
    return HttpResponse(generate_latest(requests) + generate_latest(standing), content_type=CONTENT_TYPE_LATEST)
