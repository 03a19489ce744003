"""What those who work on it run: the test command, the check for dead code, PostgreSQL and Redis from wheels."""
