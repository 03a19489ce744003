"""From a bare Python to a running house: pins, build, supervisor, web server, backup; container and compose file."""
