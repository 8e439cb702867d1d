"""Fills a profile's templates for one text: numbers, words, secrets, times, and what is computed of them."""

from __future__ import annotations

import base64
import hashlib
import hmac
import json
import re
from collections.abc import Callable, Mapping
from urllib.parse import quote

from service.edge.codings import spelled
from service.edge.escaping import Written, escaped
from service.edge.profile_send import Coding, Computed
from service.edge.verify import key_bytes

PLACEHOLDER = re.compile(
    r"\{([a-z_]+(?::[a-z][a-z0-9_]*)?(?:\|(?:national|bare|00))?)"
    r"(?:(?P<number>\|number)|\|(?P<within>xml|json|percent|form))?\}"
)
"""A placeholder: its name, whether it is a number in JSON, and for what within a field it is escaped or coded."""

LIKE_A_PLACEHOLDER = re.compile(r'\{\s*[A-Za-z_][^{}"\n]*\}')
"""What somebody meant to be filled, whether or not it can be; JSON's own braces are followed by a quote."""

OF_THE_REQUEST = ("body", "url", "path", "query", "method")
"""What only a computed value may use, since it is known only once the request is written."""


class Filling:
    """Fills ``{placeholders}``; what is filled in is never looked through again, so a customer's braces stay braces."""

    def __init__(
        self, plain: Mapping[str, str], coding: Coding, secret: Callable[[str], str], computed: Mapping[str, Computed]
    ) -> None:
        self._plain, self._coding, self._secret, self._computed = plain, coding, secret, computed
        self.of_request: dict[str, bytes] = {}

    def __call__(self, template: str, written: Written = "text") -> str:
        """*template* filled, each value escaped for the document it is *written* in."""

        def one(match: re.Match[str]) -> str:
            value = self._valued(match)
            return match[0] if value is None else escaped(value, written)

        return PLACEHOLDER.sub(one, template)

    def address(self, template: str) -> str:
        """An address; what is filled in is coded for it, but for a secret that begins it: that is the address."""

        def one(match: re.Match[str]) -> str:
            value = self._valued(match)
            if value is None or (match.start() == 0 and match[1].startswith("secret:")):
                return match[0] if value is None else value
            return quote(value.encode(self._charset(match[1]), "replace"), safe="")

        return PLACEHOLDER.sub(one, template)

    def content(self, template: str) -> bytes:
        """*template* filled as bytes: the text in the charset the gateway wants it in, all else in UTF-8."""
        written, last = b"", 0
        for match in PLACEHOLDER.finditer(template):
            value = self._valued(match)
            filled = match[0].encode() if value is None else value.encode(self._charset(match[1]), "replace")
            written += template[last : match.start()].encode() + filled
            last = match.end()
        return written + template[last:].encode()

    def json(self, fields: object) -> bytes:
        """*fields* with all texts in it filled, as JSON."""
        return json.dumps(self._nested(fields), ensure_ascii=False).encode("utf-8", "replace")

    def _nested(self, value: object) -> object:
        if isinstance(value, dict):
            return {key: self._nested(item) for key, item in value.items()}
        if isinstance(value, list):
            return [self._nested(item) for item in value]
        if not isinstance(value, str):
            return value
        filled = self(value)
        alone = PLACEHOLDER.fullmatch(value)
        a_number = alone and alone["number"] and re.fullmatch(r"\+?[0-9]+", filled)
        return int(filled.removeprefix("+")) if a_number else filled

    def _charset(self, name: str) -> str:
        return self._coding.charset if name == "text" and self._coding.written == "plain" else "utf-8"

    def _valued(self, match: re.Match[str]) -> str | None:
        """What stands for a placeholder, escaped or coded for what it is in within a field."""
        value, within = self._value(match[1]), match["within"]
        if value is None or within is None:
            return value
        if within in ("xml", "json"):
            return escaped(value, "xml" if within == "xml" else "json")
        return spelled(value.encode("utf-8", "replace"), "form" if within == "form" else "percent")

    def _value(self, name: str) -> str | None:
        if name.startswith("secret:"):
            return self._secret(name[7:])
        if name.startswith("computed:"):
            return self._compute(self._computed[name[9:]]) if name[9:] in self._computed else None
        found = self._plain.get(name)
        if found is not None and name == "text" and self._coding.written != "plain":
            return spelled(found.encode(self._coding.charset, "replace"), self._coding.written)
        return found

    def _compute(self, rule: Computed) -> str:
        content, last = b"", 0
        for match in PLACEHOLDER.finditer(rule.of):
            content += rule.of[last : match.start()].encode()
            value = self._valued(match)
            content += self.of_request.get(match[1], b"") if value is None else value.encode("utf-8", "replace")
            last = match.end()
        content += rule.of[last:].encode()
        if rule.digest != "none":
            if rule.key is not None:
                content = hmac.digest(key_bytes(self._secret(rule.key), rule.key_written), content, rule.digest)
            else:
                content = hashlib.new(rule.digest, content).digest()
        return content.hex() if rule.written == "hex" else base64.b64encode(content).decode()
