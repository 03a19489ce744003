"""A language that nobody speaks, made from the English text, to show what a screen says beside the catalogue.

Every ASCII letter is replaced by one with a mark and vowels are doubled, so that text gets longer by about a third,
as it does in other languages; brackets show where a message begins and ends. ``frontend/src/messages/pseudo.ts``
does the same.
"""

_PLAIN = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
_MARKED = "áƀçðéƒĝĥíĵķļɱñóþɋŕšţúṽŵẋýžÁƁÇÐÉƑĜĤÍĴĶĻḾÑÓÞǪŔŠŢÚṼŴẊÝŽ"
_TABLE = str.maketrans({plain: marked * (2 if plain in "aeiou" else 1)
                        for plain, marked in zip(_PLAIN, _MARKED, strict=True)})


def marked(text: str) -> str:
    """The text with a mark on every letter.

    Examples
    --------
    >>> marked("Open carton")
    'Óþééñ çááŕţóóñ'
    """
    return text.translate(_TABLE)


def bracketed(text: str) -> str:
    """A whole message, between its brackets."""
    return f"⟦{text}⟧"
