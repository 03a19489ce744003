"""How the pages print numbers below zero; what was sealed is left as it is."""
from django import template
from django.template.defaultfilters import stringfilter

from inspections.trade import wording

register = template.Library()
#: ``trade.wording.typeset`` and ``typeset_sum``; neither adds a sign that HTML reads.
register.filter("typeset", stringfilter(wording.typeset), is_safe=True)
register.filter("typeset_sum", stringfilter(wording.typeset_sum), is_safe=True)
