"""``start`` refuses what it cannot do in a sentence."""
import socket

import pytest

from inspections.deployment import start


def test_a_taken_port_is_named_with_another_to_try():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with pytest.raises(start.PortTaken, match=f"--port {port + 1}"):
            start._refuse_taken_port("127.0.0.1", port)


@pytest.mark.parametrize("word", ["0", "65536", "-1", "eighty", "80.5"])
def test_a_port_that_cannot_be_is_refused(word, capsys):
    with pytest.raises(SystemExit):
        start._parser().parse_args(["--port", word])
    assert "not a port" in capsys.readouterr().err
