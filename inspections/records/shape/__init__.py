"""The one schema of what a phone sends: deliveries, what is added later, checks of thermometers in ice.

Only the shape is held here: kinds, lengths, ranges that no phone goes beyond. What a value says is judged by
``trade``, which lists what it cannot use instead of refusing it, so that a half-done delivery can be kept at
any tap. ``door`` is where it is checked, once; the phone's types are made from it (``python -m fixtures.api_types``).

``parts`` → ``carton`` (the fields of the checks, and nothing else) → ``delivery`` → ``later`` → ``door``.
"""
