"""``{% message "pages-…" name=value %}`` for Django's templates; what it says is escaped as any other text."""
from django import template

from inspections import messages

register = template.Library()


@register.simple_tag
def message(message_id: str, **values: object) -> str:
    """The message of that id; values other than whole numbers are put in as their text."""
    return messages.message(message_id, **{key: value if isinstance(value, int) else str(value)
                                     for key, value in values.items()})
