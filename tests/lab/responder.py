"""A storage that answers for its own name by multicast DNS (RFC 6762), and for its file service (RFC 6763).

responder.py NAME ADDRESS…
"""

from __future__ import annotations

import sys
import time

from zeroconf import IPVersion, ServiceInfo, Zeroconf

SERVICE = "_smb._tcp.local."
ANNOUNCED_S = 1.2
"""Within a second of its announcement a responder may not say it again to all (RFC 6762, section 6)."""


def answer(name: str, addresses: list[str]) -> None:
    """Answer until the standard input ends."""
    info = ServiceInfo(SERVICE, f"{name}.{SERVICE}", port=445, server=f"{name}.local.", parsed_addresses=addresses)
    with Zeroconf(interfaces=addresses, ip_version=IPVersion.V4Only) as responder:
        responder.register_service(info, cooperating_responders=True)
        time.sleep(ANNOUNCED_S)
        print("ready", flush=True)
        sys.stdin.read()


if __name__ == "__main__":
    answer(sys.argv[1], sys.argv[2:])
