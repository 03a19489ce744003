"""What a claim comes to: worked examples to the last cent, and currencies of 0, 2 and 3 decimals."""
from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inspections.claims.amounts import GROUNDS, figure, sum_words, total, unrounded
from inspections.claims.currencies import DECIMALS, decimals_of, rounded, written
from inspections.errors import Unprocessable

PRICE = D("14.50")
WORKED = [
    # CV-4-09: 40 cartons x (10.00 - 9.62) kg x 14.50 = 220.40
    ("short_weight", {"cartons": D(40), "units": D(1), "declared_g": D(10000), "found_g": D(9620), "price": PRICE},
     "AUD", "220.40"),
    # The same in units of 2 kg, five to a carton: 40 x 5 x 76 g = 15.2 kg.
    ("short_weight", {"cartons": D(40), "units": D(5), "declared_g": D(2000), "found_g": D(1924), "price": PRICE},
     "AUD", "220.40"),
    # By hand: 3 x 10 kg x 14.50.
    ("refused", {"cartons": D(3), "net_kg": D(10), "price": PRICE}, "AUD", "435.00"),
    ("short_cartons", {"cartons": D(2), "net_kg": D("9.08"), "price": D("13.2750")}, "USD", "241.07"),
    # By hand: 184.8 kg x (14.50 - 12.10) = 443.52.
    ("grade", {"kg": D("184.8"), "price": PRICE, "price_delivered": D("12.10")}, "AUD", "443.52"),
    # A grade that costs more than the one ordered takes nothing off.
    ("grade", {"kg": D("184.8"), "price": PRICE, "price_delivered": D("15.00")}, "AUD", "0.00"),
    # By hand: 170 kg x 14.50 x 4.5 % = 110.925, half up.
    ("quality", {"kg": D(170), "price": PRICE, "percent": D("4.5")}, "AUD", "110.93"),
    ("sorting", {"kg": D("7.35"), "price": PRICE}, "AUD", "106.58"),  # 106.575
    ("refused", {"cartons": D(3), "net_kg": D(10), "price": D("2175.55")}, "JPY", "65267"),  # 65266.5
    ("refused", {"cartons": D(3), "net_kg": D(10), "price": D("4.3215")}, "KWD", "129.645"),
    ("short_units", {"kg": D("0.333"), "price": D("4.3215")}, "KWD", "1.439"),  # 1.4390595
    ("other", {"amount": D("99.999")}, "EUR", "100.00"),
]


@pytest.mark.parametrize(("ground", "figures", "currency", "amount"), WORKED)
def test_worked_examples_come_out_to_the_last_figure(ground, figures, currency, amount):
    assert f"{rounded(unrounded(ground, figures), currency):f}" == amount
    assert sum_words(ground, figures, currency).endswith(f"= {written(D(amount), currency)}")


def test_every_ground_has_a_worked_example_or_shares_the_sum_of_one():
    shown = {ground for ground, *_ in WORKED} | {"label_weight", "uniformity"}
    assert shown == set(GROUNDS)
    figures = {"kg": D(10), "price": D(12), "percent": D(15)}
    assert sum_words("uniformity", figures, "EUR") == sum_words("quality", figures, "EUR")


def test_the_printed_sum_is_the_one_reckoned_with():
    told = sum_words("short_weight", WORKED[0][1], "AUD")
    assert told == ("40 cartons × 1 unit × (10000 g declared − 9620 g found) ÷ 1000 × AUD 14.50 per kg = AUD 220.40")


def test_a_figure_that_is_not_known_is_named_and_gives_no_amount():
    figures = {"kg": D(100), "price": PRICE}
    assert unrounded("grade", figures) is None
    assert "(price per kg of the grade that came: not known)" in sum_words("grade", figures, "AUD")


def test_minor_units_are_those_of_iso_4217():
    """Against the published list as the package ``iso4217`` carries it (ISO 4217 list one)."""
    from iso4217 import Currency

    for one in Currency:
        if one.exponent is not None:
            assert decimals_of(one.code) == one.exponent, one.code
    assert set(DECIMALS) <= {one.code for one in Currency}


@pytest.mark.parametrize(("amount", "currency", "expected"), [
    ("0.005", "EUR", "0.01"), ("0.0049999", "EUR", "0.00"), ("0.5", "JPY", "1"), ("0.4999", "JPY", "0"),
    ("0.0005", "BHD", "0.001"), ("0.00005", "CLF", "0.0001"), ("2.675", "USD", "2.68"),
])  # fmt: skip
def test_rounding_is_half_up_to_the_minor_unit(amount, currency, expected):
    # 2.675 is the value on which binary floating point is wrong: round(2.675, 2) gives 2.67.
    assert f"{rounded(D(amount), currency):f}" == expected


@pytest.mark.parametrize("entry", ["", "x", "-1", "1e9", "NaN", "Infinity", "1_000", "0.00001", "٣", "9" * 30, "1,5"])
def test_what_is_no_figure_is_refused_in_a_sentence(entry):
    with pytest.raises(Unprocessable) as refused:
        figure(entry, "price")
    assert refused.value.code == "CLAIM-NUMBER"
    assert "price per kg" in str(refused.value)


@given(st.lists(st.integers(0, 10**10), max_size=12), st.sampled_from(["JPY", "EUR", "KWD"]))
def test_a_claim_is_the_sum_of_its_rounded_items(ten_thousandths, currency):
    amounts = [D(one).scaleb(-4) for one in ten_thousandths]
    items = [rounded(amount, currency) for amount in amounts]
    assert total(items, currency) == sum(items)
    # Each item is off by half a minor unit at most.
    assert abs(total(items, currency) - sum(amounts)) <= len(items) * D("0.5").scaleb(-decimals_of(currency))
