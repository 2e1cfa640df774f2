"""The netlink client: what it packs, what it believes, and how long it listens."""

import errno
import struct
from collections.abc import Callable, Iterable, Mapping
from ipaddress import ip_address
from typing import NoReturn

import pytest

from netaudit.errors import AnswerError, MachineError, PrivilegeError
from netaudit.machine.linux import netlink

TRUNCATED = 0x20
"""MSG_TRUNC of recvmsg(2)."""
ACKNOWLEDGED = struct.pack("=i", 0)


def message(kind: int, body: bytes, flags: int = 0, sequence: int = 1) -> bytes:
    """struct nlmsghdr, then the body, as netlink(7) describes it."""
    return struct.pack("=IHHII", 16 + len(body), kind, flags, sequence, 0) + body + bytes(-len(body) % 4)


class Kernel:
    """A kernel that says what it is told to: pieces, each with its flags and who sent it."""

    def __init__(self, *pieces: bytes | tuple[bytes, int, int]) -> None:
        self.pieces = list(pieces)
        self.heard = b""
        self.closed = False

    def __enter__(self) -> "Kernel":
        return self

    def __exit__(self, *_: object) -> None:
        self.closed = True

    def send(self, data: bytes) -> None:
        self.heard = data

    def settimeout(self, seconds: float) -> None:
        assert 0 < seconds <= netlink.TIMEOUT_S

    def recvmsg(self, most: int) -> tuple[bytes, list[object], int, tuple[int, int]]:
        if not self.pieces:
            raise TimeoutError
        piece = self.pieces.pop(0)
        data, flags, sender = piece if isinstance(piece, tuple) else (piece, 0, 0)
        return data[:most], [], flags, (sender, 0)


@pytest.fixture
def kernel(monkeypatch: pytest.MonkeyPatch) -> Callable[..., Kernel]:
    def install(*pieces: bytes | tuple[bytes, int, int]) -> Kernel:
        made = Kernel(*pieces)
        monkeypatch.setattr(netlink, "_open", lambda family: made)
        return made

    return install


def test_an_attribute_is_its_size_its_kind_its_value_and_padding_to_four() -> None:
    assert struct.pack("=HH", 5, 27) + b"\x06\0\0\0" == netlink.attribute(27, b"\x06")
    assert struct.pack("=HHI", 8, 25, 1000) == netlink.number_attribute(25, 1000)


def test_attributes_that_were_packed_are_read_again() -> None:
    data = netlink.attribute(1, b"en5\0") + netlink.attribute(27, b"\x06") + netlink.number_attribute(4, 1500)

    found = netlink.attributes(data)

    assert {1: b"en5\0", 27: b"\x06", 4: struct.pack("=I", 1500)} == found
    assert "en5" == netlink.text(found[1])
    assert 1500 == netlink.number(found[4])


def test_the_marks_of_nested_and_network_order_are_no_part_of_a_kind() -> None:
    """NLA_F_NESTED and NLA_F_NET_BYTEORDER of linux/netlink.h."""
    assert {18: b"x"} == netlink.attributes(netlink.attribute(0x8000 | 0x4000 | 18, b"x"))


def test_a_cut_attribute_ends_the_list() -> None:
    data = netlink.attribute(3, b"en5\0") + netlink.attribute(4, b"1234")[:-1]

    assert {3: b"en5\0"} == netlink.attributes(data)


def test_an_attribute_of_no_size_ends_the_list() -> None:
    assert {} == netlink.attributes(bytes(16))


def test_what_is_missing_is_not_known() -> None:
    assert netlink.number(None) is None
    assert netlink.number(b"") is None
    assert netlink.text(None) is None
    assert netlink.text(b"\0\0") is None
    assert netlink.address(None) is None
    assert netlink.address(b"12345") is None


def test_an_address_of_one_link_bears_its_interface() -> None:
    link_local = ip_address("fe80::1").packed

    assert ip_address("198.51.100.11") == netlink.address(b"\xc6\x33\x64\x0b", "en5")
    assert ip_address("2001:db8::1") == netlink.address(ip_address("2001:db8::1").packed, "en5")
    assert ip_address("fe80::1%en5") == netlink.address(link_local, "en5")
    assert ip_address("fe80::1") == netlink.address(link_local, "en%5")


def test_the_question_is_one_message_with_its_own_size(kernel: Callable[..., Kernel]) -> None:
    talk = kernel(message(24, b"road"))

    assert b"road" == netlink.ask(netlink.ROUTE, 26, b"body").body
    assert struct.pack("=IHHII", 20, 26, 0x1, 1, 0) + b"body" == talk.heard
    assert talk.closed


def test_a_list_is_read_until_the_kernel_says_that_it_is_all(kernel: Callable[..., Kernel]) -> None:
    first = message(16, b"lo__") + message(16, b"en5")
    talk = kernel(first, message(16, b"en6_") + message(3, ACKNOWLEDGED), message(16, b"late"))

    assert [b"lo__", b"en5", b"en6_"] == [each.body for each in netlink.dump(netlink.ROUTE, 18, b"")]
    assert talk.closed
    assert [message(16, b"late")] == talk.pieces


def test_a_refusal_is_the_kernels_own_number(kernel: Callable[..., Kernel]) -> None:
    kernel(message(2, struct.pack("=i", -errno.ENETUNREACH) + bytes(16)))

    with pytest.raises(OSError, match="unreachable") as caught:
        netlink.ask(netlink.ROUTE, 26, b"")

    assert errno.ENETUNREACH == caught.value.errno


@pytest.mark.parametrize("number", [errno.EPERM, errno.EACCES])
def test_a_list_that_is_forbidden_names_the_privilege(kernel: Callable[..., Kernel], number: int) -> None:
    kernel(message(2, struct.pack("=i", -number)))

    with pytest.raises(PrivilegeError, match="permission to ask the kernel over netlink"):
        netlink.dump(netlink.ROUTE, 18, b"")


def test_a_list_that_fails_in_its_middle_is_no_answer(kernel: Callable[..., Kernel]) -> None:
    kernel(message(16, b"lo__") + message(3, struct.pack("=i", -errno.ENOBUFS)))

    with pytest.raises(AnswerError, match="refuses"):
        netlink.dump(netlink.ROUTE, 18, b"")


def test_a_list_that_changed_while_it_was_read_is_read_again(kernel: Callable[..., Kernel]) -> None:
    """NLM_F_DUMP_INTR of linux/netlink.h."""
    done = message(3, ACKNOWLEDGED)
    kernel(message(16, b"old_", flags=0x10) + done, message(16, b"new_") + done)

    assert [b"new_"] == [each.body for each in netlink.dump(netlink.ROUTE, 18, b"")]


def test_a_list_that_never_rests_is_taken_as_it_is(kernel: Callable[..., Kernel]) -> None:
    restless = message(16, b"so", flags=0x10) + message(3, ACKNOWLEDGED)
    talk = kernel(*[restless] * 9)

    assert [b"so"] == [each.body for each in netlink.dump(netlink.ROUTE, 18, b"")]
    assert [restless] * 6 == talk.pieces


def test_silence_ends_at_the_deadline(kernel: Callable[..., Kernel]) -> None:
    talk = kernel()

    with pytest.raises(AnswerError, match="did not answer within 2 s"):
        netlink.ask(netlink.ROUTE, 26, b"")

    assert talk.closed


def test_only_the_kernel_is_believed(kernel: Callable[..., Kernel]) -> None:
    """netlink(7): a message of the kernel comes from address 0, one of another process from its own."""
    kernel((message(24, b"lie_"), 0, 4711), message(24, b"true"))

    assert b"true" == netlink.ask(netlink.ROUTE, 26, b"").body


def test_news_that_nobody_asked_for_is_not_an_answer(kernel: Callable[..., Kernel]) -> None:
    kernel(message(24, b"news", sequence=0) + message(24, b"true"))

    assert b"true" == netlink.ask(netlink.ROUTE, 26, b"").body


def test_a_message_that_does_not_fit_is_no_answer(kernel: Callable[..., Kernel]) -> None:
    kernel((message(24, b"half"), TRUNCATED, 0))

    with pytest.raises(AnswerError, match="more than 262144 bytes"):
        netlink.ask(netlink.ROUTE, 26, b"")


def test_an_endless_answer_is_not_listened_to(kernel: Callable[..., Kernel], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(netlink, "MOST_BYTES", 100)
    talk = kernel(*[message(16, b"more")] * 50)

    with pytest.raises(AnswerError, match="longer than"):
        netlink.dump(netlink.ROUTE, 18, b"")

    assert talk.closed
    assert 44 == len(talk.pieces)


def test_an_empty_answer_is_none(kernel: Callable[..., Kernel]) -> None:
    kernel(message(2, ACKNOWLEDGED))

    with pytest.raises(AnswerError, match="empty"):
        netlink.ask(netlink.ROUTE, 26, b"")


def test_a_message_may_be_no_more_than_its_header() -> None:
    assert [b"", b"body", b""] == [
        each.body for each in netlink.messages(message(3, b"") + message(16, b"body") + message(3, b""))
    ]


@pytest.mark.parametrize("data", [b"\x10", message(16, b"body")[:-2], struct.pack("=IHHII", 4, 16, 0, 1, 0)])
def test_a_message_that_is_cut_is_no_answer(data: bytes) -> None:
    with pytest.raises(AnswerError, match="message"):
        list(netlink.messages(data))


def test_rubbish_is_no_answer_or_an_empty_one(spoilt: Callable[[bytes], Iterable[bytes]]) -> None:
    good = message(16, netlink.attribute(3, b"en5\0") + netlink.attribute(4, b"1234")) * 2
    for bad in spoilt(good):
        netlink.attributes(bad)
        try:
            for each in netlink.messages(bad):
                netlink.attributes(each.body)
        except AnswerError:
            continue


def test_a_machine_without_netlink_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    def closed(*_: object) -> NoReturn:
        raise OSError(errno.EAFNOSUPPORT, "Address family not supported by protocol")

    monkeypatch.setattr(netlink.socket, "socket", closed)

    with pytest.raises(MachineError, match="netlink cannot be asked"):
        netlink.ask(netlink.ROUTE, 26, b"")


def test_the_real_kernel_refuses_an_interface_that_is_not_there(linux: None) -> None:
    with pytest.raises(OSError, match="No such device") as caught:
        netlink.ask(netlink.ROUTE, 18, struct.pack("=BxHiII", 0, 0, 2**31 - 1, 0, 0))

    assert errno.ENODEV == caught.value.errno


def test_the_numbers_are_those_of_the_kernels_header(header: Callable[[str], Mapping[str, int]]) -> None:
    """linux/netlink.h."""
    known = header("netlink.h")

    assert (netlink.ROUTE, netlink.SOCK_DIAG, netlink.GENERIC) == (
        known["NETLINK_ROUTE"], known["NETLINK_SOCK_DIAG"], known["NETLINK_GENERIC"],
    )  # fmt: skip
    assert (netlink._REQUEST, netlink._DUMP) == (known["NLM_F_REQUEST"], known["NLM_F_ROOT"] | known["NLM_F_MATCH"])
    assert netlink._DUMP_INTERRUPTED == known["NLM_F_DUMP_INTR"]
    assert (netlink._ERROR, netlink._DONE) == (known["NLMSG_ERROR"], known["NLMSG_DONE"])
