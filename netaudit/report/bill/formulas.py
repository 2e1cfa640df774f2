"""Text that a spreadsheet would take for a formula.

Sources: OWASP, CSV Injection (owasp.org/www-community/attacks/CSV_Injection), whose first characters these are, the
full-width ones among them; OWASP ASVS 5.0, requirement 1.2.10, which adds the null character; CWE-1236.
"""

from __future__ import annotations

import re

FORMULA = re.compile(r"'*(?:[\t\r\n\0]|[\s\u200b\u2060\ufeff]*[=+\-@＝＋－＠])")
"""A first character of a formula, behind blanks too: some programs cut those off. Behind apostrophes too, so that a
text which has one of its own is not read back as one that was given one."""


def is_formula(text: str) -> bool:
    """Whether a spreadsheet might calculate it."""
    return FORMULA.match(text) is not None
