"""`racewright desk` as a command: its endings, its messages, and what the others do not load."""

from __future__ import annotations

import signal
import socket
import subprocess
import sys
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import Request, urlopen

import pytest
from tools.screens.served import Heard, environment

from racewright.cli.main import run
from tests.cli.test_commands import loaded_by
from tests.desk.common import example
from tests.interrupts import hears_interrupts


def test_a_port_in_use_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert run(["desk", str(example(tmp_path)), "--port", str(port), "--no-browser"]) == 2
    assert f"port {port} is in use" in capsys.readouterr().err


@pytest.mark.parametrize("host", ["203.0.113.7", "no such host"])
def test_a_host_of_another_machine_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str], host: str) -> None:
    assert run(["desk", str(example(tmp_path)), "--host", host, "--no-browser"]) == 2
    assert "--host" in capsys.readouterr().err


def test_a_scheme_that_is_not_sound_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    scheme = tmp_path / "scheme.toml"
    scheme.write_text("format = 2\ntitle = 3\n")
    assert run(["desk", str(scheme), "--no-browser"]) == 2
    assert f"{scheme}:2: title" in capsys.readouterr().err


@pytest.mark.parametrize(
    "arguments", [["--help"], ["desk", "--help"], ["check", "{scheme}"], ["point", "{scheme}"]], ids=" ".join
)
def test_other_commands_load_no_web_kit(tmp_path: Path, arguments: list[str]) -> None:
    scheme = example(tmp_path)
    assert not loaded_by(*[a.format(scheme=scheme) for a in arguments]) & {"nicegui", "fastapi", "uvicorn", "tomlkit"}


def test_it_serves_guards_and_ends_at_ctrl_c(tmp_path: Path) -> None:
    """In a process of its own: address printed, guard in force over sockets and API, exit code 130."""
    command = [sys.executable, "-m", "racewright", "desk", str(example(tmp_path)), "--port", "0", "--no-browser"]
    with subprocess.Popen(
        command, stderr=subprocess.PIPE, text=True, env=environment(), preexec_fn=hears_interrupts
    ) as process:
        heard = Heard(process)
        try:
            address = heard.address()
            with urlopen(f"{address}api/scheme") as reply:
                assert reply.status == 200
                assert "frame-ancestors 'none'" in reply.headers["Content-Security-Policy"]
            for path, heads in (
                ("", {"Host": "evil.example"}),
                ("_nicegui_ws/socket.io/?EIO=4&transport=polling", {"Origin": "http://evil.example"}),
                ("api/scheme", {"Sec-Fetch-Site": "cross-site"}),
                ("look/%2e%2e/server.py", {}),
                ("look/../server.py", {}),
            ):
                with pytest.raises(HTTPError) as caught:
                    urlopen(Request(address + path, headers=heads))
                assert 400 <= caught.value.code < 500
                caught.value.close()
        finally:
            process.send_signal(signal.SIGINT)
            process.wait(timeout=60)
        said = heard.all()
    assert process.returncode == 130
    assert "cancelled" in said
    assert "Traceback" not in said
