from __future__ import annotations

import os
import signal

import pytest

from fitwright.sheets.terminal import stopped_by_hand


def test_the_first_interrupt_asks_to_stop_and_the_second_breaks_off() -> None:
    outside = signal.signal(signal.SIGINT, signal.default_int_handler)  # ignored where the tests run in the background
    try:
        with stopped_by_hand() as stopped:
            assert not stopped()
            os.kill(os.getpid(), signal.SIGINT)
            assert stopped()
            with pytest.raises(KeyboardInterrupt):
                os.kill(os.getpid(), signal.SIGINT)
        assert signal.getsignal(signal.SIGINT) is signal.default_int_handler
    finally:
        signal.signal(signal.SIGINT, outside)
