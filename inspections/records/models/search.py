"""What deliveries are looked for by: rows of their own, so that no search reads everything.

Question: how does the desk find a docket or lot of which somebody knows a part? Chosen: rows of words, cut where
people begin to read a number, and asked for by their beginning, which any database answers from a plain index. Left:
trigrams or full text, which find more (any three signs in the middle) but are another thing on each database. It
costs about three short rows a docket and lot.
"""
from django.db import models

from inspections.records.models.delivery import Delivery, DocketLine


class LineLot(models.Model):
    """A lot of a docket line: as the docket has it, or as labels of its opened cartons show it."""

    line = models.ForeignKey(DocketLine, on_delete=models.CASCADE, related_name="lots")
    lot = models.CharField(max_length=80, help_text="As first written.")
    key = models.CharField(max_length=80, db_index=True, help_text="Letters and digits alone.")
    is_on_docket = models.BooleanField()
    labels = models.PositiveIntegerField(help_text="Opened cartons whose label shows it.")

    class Meta:
        ordering = ["key", "line"]
        constraints = [models.UniqueConstraint(fields=["line", "key"], name="one_row_for_each_lot_of_a_line")]

    def __str__(self) -> str:
        return self.lot


class SearchWord(models.Model):
    """A word that a docket number or lot is found by; ``lot`` is empty for words of the docket number."""

    delivery = models.ForeignKey(Delivery, on_delete=models.CASCADE, related_name="+", db_index=False)
    lot = models.ForeignKey(LineLot, on_delete=models.CASCADE, null=True, related_name="+", db_index=False)
    word = models.CharField(max_length=80, db_index=True)

    class Meta:
        ordering = ["word", "id"]

    def __str__(self) -> str:
        return self.word
