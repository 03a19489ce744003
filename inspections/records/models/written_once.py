"""Rows that are written once: a delivery keeps what was signed, and the specification and limits it was judged by."""
from django.db import models

from inspections.errors import Conflict


class WrittenOnceQuerySet(models.QuerySet):
    """Refuses to alter or remove rows, but for the fields named in the model's ``MAY_ALTER``."""

    def update(self, **values):
        if not set(values) <= self.model.MAY_ALTER:
            raise Conflict(self.model.REFUSAL)
        return super().update(**values)

    def bulk_update(self, objs, fields, batch_size=None):
        raise Conflict(self.model.REFUSAL)

    def delete(self):
        raise Conflict(self.model.REFUSAL)


class WrittenOnce(models.Model):
    """A row that ``save`` writes only the first time.

    The guard stands in ``save`` because the admin, imports and any later code all end there.
    """

    MAY_ALTER: frozenset[str] = frozenset()
    REFUSAL = "WRITTEN-ONCE"
    objects = WrittenOnceQuerySet.as_manager()

    class Meta:
        abstract = True

    def save(self, *args, **kwargs):
        if not self._state.adding:
            raise Conflict(self.REFUSAL)
        super().save(*args, **kwargs)

    def delete(self, *args, **kwargs):
        raise Conflict(self.REFUSAL)


class SignedOnce(WrittenOnce):
    """A row of a signed record."""

    REFUSAL = "SIGNED-ONCE"

    class Meta:
        abstract = True
