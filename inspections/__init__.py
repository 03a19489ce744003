"""The Django project: from the docket at the door to the sealed record."""
