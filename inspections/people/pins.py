"""PINs: the quick change of receiver on a shared device, and nothing else.

A PIN opens only on a device that a manager has enrolled, only for people of its site, and only what a receiver
may do. Wrong ones are counted for each person on each device (five in ten minutes), and after twenty in a row
the PIN is off until its owner signs in by password.
"""
from django.contrib.auth.backends import ModelBackend
from django.contrib.auth.hashers import check_password, make_password
from django.db.models import F, QuerySet
from django.http import HttpRequest

from inspections.errors import Unprocessable
from inspections.people.models import Device, Person, Role

#: Whom a shared device may be handed to; who answers for the group signs in by password.
BY_PIN = (Role.RECEIVER, Role.SITE_MANAGER)
MOST_WRONG = 20
IN_A_ROW = "01234567890 09876543210"


def set_pin(*, person: Person, pin: str) -> None:
    """Keep the PIN, hashed; an empty one takes it away.

    Raises
    ------
    Unprocessable
        PIN-SHAPE.
    """
    if pin and (not (pin.isascii() and pin.isdigit() and 4 <= len(pin) <= 8) or len(set(pin)) == 1 or pin in IN_A_ROW):
        raise Unprocessable("PIN-SHAPE")
    person.pin, person.wrong_pins = make_password(pin) if pin else "", 0
    person.save(update_fields=["pin", "wrong_pins"])


def people_on(device: Device) -> QuerySet[Person]:
    """Those who may take a shared device into their hands: of its site, and with a PIN."""
    return Person.objects.filter(sites=device.site, is_active=True, role__in=BY_PIN).exclude(pin="")


class PinBackend(ModelBackend):
    """Signs in by ``device`` and ``pin_secret``; asked after the lock-out, like passwords."""

    def authenticate(self, request: HttpRequest, username=None, pin_secret=None, device=None):
        if pin_secret is None or device is None:
            return None
        person = people_on(device).filter(username=username).first()
        if person is None:
            # As long as a wrong one takes.
            make_password(pin_secret)
            return None
        if person.wrong_pins >= MOST_WRONG:
            raise Unprocessable("PIN-OFF")
        if not check_password(pin_secret, person.pin):
            Person.objects.filter(pk=person.pk).update(wrong_pins=F("wrong_pins") + 1)
            return None
        return person
