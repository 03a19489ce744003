"""Rows that are written once: a delivery keeps the specification and limits that it was judged by."""
from django.db import models

from inspections.errors import Conflict, add_sentences

add_sentences({
    "WRITTEN-ONCE": "This version has been used to judge deliveries and cannot be altered. Nothing was changed. "
    "Publish a new version instead.",
})


class WrittenOnceQuerySet(models.QuerySet):
    """Refuses to alter or remove rows, but for the fields named in the model's ``MAY_ALTER``."""

    def update(self, **values):
        if not set(values) <= self.model.MAY_ALTER:
            raise Conflict("WRITTEN-ONCE")
        return super().update(**values)

    def bulk_update(self, objs, fields, batch_size=None):
        raise Conflict("WRITTEN-ONCE")

    def delete(self):
        raise Conflict("WRITTEN-ONCE")


class WrittenOnce(models.Model):
    """A row that ``save`` writes only the first time.

    The guard stands in ``save`` because the admin, imports and any later code all end there.
    """

    MAY_ALTER: frozenset[str] = frozenset()
    objects = WrittenOnceQuerySet.as_manager()

    class Meta:
        abstract = True

    def save(self, *args, **kwargs):
        if not self._state.adding:
            raise Conflict("WRITTEN-ONCE")
        super().save(*args, **kwargs)

    def delete(self, *args, **kwargs):
        raise Conflict("WRITTEN-ONCE")
