"""A species by its names: nobody outside the trade's statistics reads a three-letter code."""
from inspections.trade.species import BY_CODE


def species_named(code: str, market: str = "") -> str:
    """The name of the market with the scientific name; the code as it stands where the table does not have it.

    Examples
    --------
    >>> species_named("PNV", "ANZ")         # FAO ASFIS list 2024
    'Vannamei prawn (Penaeus vannamei)'
    >>> species_named("PNV"), species_named("XYZ")
    ('Whiteleg shrimp (Penaeus vannamei)', 'XYZ')
    """
    known = BY_CODE.get(code)
    if known is None:
        return code
    return f"{known['names'].get(market) or known['name']} ({known['scientific_name']})"
