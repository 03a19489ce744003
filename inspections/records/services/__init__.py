"""The write path: one function for each thing that can happen."""
