"""What may come of handing a message on, beside its going out; anything else is *may have gone out*."""


class NotTaken(Exception):
    """Whoever was to take it surely did not: it is tried again."""


class Gone(Exception):
    """Nobody is there to take it any more, and nobody will be."""
