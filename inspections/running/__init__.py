"""From a bare Python to a running house: pins, frontend build, supervisor, the test command."""
