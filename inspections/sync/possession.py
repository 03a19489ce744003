"""Who has a photo's bytes? A hash is no secret: it stands in bundles, on pages and in every document that names it.

So knowing one opens nothing. A person holds a photo whose bytes they sent whole to this server, or that a site
which they may see has received; then a document that they send may use it at its own site too.
"""
from collections.abc import Iterable
from uuid import UUID

from django.db.models import Q

from inspections.people.access import sites_for
from inspections.people.models import Person, Site
from inspections.records.services.photo import receive_photos, received_at
from inspections.sync.models import Document, DocumentState, NamedPhoto, Upload


def held_by(person: Person, hashes: Iterable[str]) -> set[str]:
    """Those of the photos that a person holds."""
    named = set(hashes)
    sent = Upload.objects.filter(person=person, sha256__in=named, is_stored=True).values_list("sha256", flat=True)
    return {*sent, *received_at(sites_for(person), named)}


def bring(person: Person, site_id: UUID, hashes: Iterable[str]) -> set[str]:
    """Let a site have those photos that the person holds; the ones that it lacks afterwards.

    Notes
    -----
    Queries in a number that does not grow with the photos; none is written where the site has them all.
    """
    lacking = set(hashes)
    lacking -= received_at([site_id], lacking)
    if brought := held_by(person, lacking) if lacking else set():
        receive_photos(hashes=brought, sites=[Site(pk=site_id)], person=person)
    return lacking - brought


def waiting_for(upload: Upload) -> list[Document]:
    """Open documents that may use a photo once this person has sent it.

    They are of a site that the person belongs to, or name the photo in a version that the person sent. Being
    allowed to see every site is not enough: else a document that only claims a hash would be served by the
    first person of the group who sends the photo for another site.
    """
    # Asked first, by the hash: in one query the database would rather go through every document there is.
    naming = list(NamedPhoto.objects.filter(sha256=upload.sha256).order_by().values_list("document_id", flat=True))
    if not naming:
        return []
    named = Document.objects.filter(pk__in=naming, state=DocumentState.OPEN)
    own = Q(site__in=upload.person.sites.all()) | Q(revisions__person=upload.person)
    return list(named.filter(own).select_related("site").distinct())
