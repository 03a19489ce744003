"""How good the photo advice is on real photographs whose darkening a person has judged.

labels.py reads their table, trials.py runs the advice over them, painted.py paints black spot on sound ones,
imaging.measures turns outcomes into figures with intervals, table.py prints them. Nothing here changes an advice.
"""
