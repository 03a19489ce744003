"""Photo bytes in, advice out: colour measured, three answers possible, nothing decided."""
