"""What is measured is what signing would have written: a small made-up group against a fresh count."""
from collections import Counter

from inspections.comparison.models import LineTally
from inspections.comparison.tallies import wrong_deliveries
from inspections.development.made_up_group import make_group
from inspections.records.models import Carton, Delivery, LineLot, Reading, SearchWord
from inspections.records.search_words import words_of


def test_a_made_up_group_holds_what_it_says(db, client):
    person = make_group(300)
    assert list(wrong_deliveries()) == []
    assert Carton.objects.count() == 300
    assert Reading.objects.count() == 600
    client.force_login(person)
    answer = client.get("/api/comparison").json()
    opened = sum(row["cartons_opened"] for row in answer["rows"])
    assert 0 < opened <= 300
    docket, lot = Delivery.objects.first().docket_number, LineLot.objects.first().lot
    assert client.get("/api/deliveries", {"q": docket}).json()["count"] >= 1
    assert client.get("/api/lots", {"q": lot}).json()["count"] >= 1
    assert LineTally.objects.filter(defective__gt=0).exists()
    for delivery in Delivery.objects.prefetch_related("lines__lots")[:20]:
        lots = [lot.lot for line in delivery.lines.all() for lot in line.lots.all()]
        wanted = [word for number in (delivery.docket_number, *lots) for word in words_of(number)]
        assert Counter(SearchWord.objects.filter(delivery=delivery).values_list("word", flat=True)) == Counter(wanted)
