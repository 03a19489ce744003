"""How good the photo advisory is on pictures whose answer is known: from labels or from drawn scenes.

labels.py reads a folder with its labels.csv, trials.py runs the advisory over pictures, measures.py turns the outcomes
into figures with intervals, table.py prints them. Nothing here changes an advisory, and nothing of it is stored.
"""
