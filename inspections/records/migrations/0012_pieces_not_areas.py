"""Advice counts pieces: the figure of the darkest one, and what would be said at the cut-off."""
from django.db import migrations, models

ANSWERS = [
    ("darkening_seen", "Darkening seen"), ("none_seen", "None seen"), ("cannot_tell", "Cannot tell"),
    ("look_here", "Look at the framed places"),
]


def earlier_answers_were_given(apps, schema_editor):
    """Earlier methods gave out whatever they would have said."""
    apps.get_model("records", "Advisory").objects.update(would_say=models.F("answer"))


class Migration(migrations.Migration):
    dependencies = [("records", "0011_uses_as_signed")]

    operations = [
        migrations.RemoveField("advisory", "look"),
        migrations.AlterField("advisory", "answer", models.CharField(choices=ANSWERS, max_length=20)),
        migrations.AddField(
            "advisory", "figure",
            models.FloatField(blank=True, null=True, help_text="Of the darkest piece, where pieces stood clear."),
        ),
        migrations.AddField(
            "advisory", "would_say",
            models.CharField(choices=ANSWERS, default="", max_length=20,
                             help_text="The answer at the cut-off, whether or not it was given."),
            preserve_default=False,
        ),
        migrations.RunPython(earlier_answers_were_given, migrations.RunPython.noop),
    ]
