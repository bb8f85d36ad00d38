#!/usr/bin/env python3
"""Compares every translation in po with its original: the same {tokens} and the same markup, each as often.

msgfmt checks what printf replaces; the words in braces, which the program fills in by name, it does not know.
"""
import collections
import pathlib
import re
import sys

LINE = re.compile(r'^(msgctxt|msgid|msgid_plural|msgstr(?:\[\d+\])?)\s+"(.*)"$')
MORE = re.compile(r'^"(.*)"$')
TOKEN = re.compile(r"\{\w+\}|</?\w+>")


def messages(path):
    """Yields (line, message) of a PO file: a message is its texts by keyword. Comments and obsolete texts are left out."""
    message, keyword, begin = {}, None, 0
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines() + [""], start=1):
        if match := LINE.match(line):
            keyword = match[1]
            begin = begin or number
            message[keyword] = match[2]
        elif (match := MORE.match(line)) and keyword:
            message[keyword] += match[1]
        elif not line.strip():
            if "msgid" in message:
                yield begin, message
            message, keyword, begin = {}, None, 0


def tokens(text):
    return collections.Counter(TOKEN.findall(text))


def wrong_in(path):
    for line, message in messages(path):
        originals = [tokens(message[word]) for word in ("msgid", "msgid_plural") if word in message]
        for word, text in message.items():
            if message["msgid"] and word.startswith("msgstr") and text and tokens(text) not in originals:
                lost = " ".join(sorted((originals[-1] - tokens(text)).elements())) or "nothing"
                added = " ".join(sorted((tokens(text) - originals[-1]).elements())) or "nothing"
                yield f'{path}:{line}: "{message["msgid"]}": the translation lacks {lost} and adds {added}'


def main(root):
    paths = sorted((root / "po").glob("*.po"))
    wrong = [text for path in paths for text in wrong_in(path)]
    print("\n".join(wrong) if wrong else f"{sum(1 for path in paths for _ in messages(path))} messages compared")
    return 1 if wrong or not paths else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1])))
