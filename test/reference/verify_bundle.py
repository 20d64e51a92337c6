"""Checks a bundle, as libs/ledger/FORMAT.md describes it. It follows that page, shares no code with the
TypeScript, and needs nothing but Python's standard library.

    python3 verify_bundle.py bundle.json [--had "a key, a root or a note that you had before"] [--json]

Python's library has no Ed25519: the arithmetic here is that of the sample code in RFC 8032, section 6 (extended coordinates over integers),
with the checks of section 5.1.7. It is slow and does not hide its timing; it only checks signatures, and everything it reads is public.
"""

import base64
import binascii
import hashlib
import json
import re
import sys
import unicodedata

FORMATS = ("ledger-bundle/1", "ledger-bundle/2")
LARGEST = 2**53 - 1


def plain_name(name):
    """A name of the file is nobody's word: it does not end a line or hide one."""
    bad = ("Cc", "Cf", "Zl", "Zp")
    return "".join("\ufffd" if unicodedata.category(c) in bad else c for c in name)[:120]


def sha256(*parts):
    return hashlib.sha256(b"".join(parts)).digest()


# Ed25519: RFC 8032, section 6 (points in extended coordinates X, Y, Z, T) and 5.1.3, 5.1.7.

P = 2**255 - 19
D = -121665 * pow(121666, P - 2, P) % P
ORDER = 2**252 + 27742317777372353535851937790883648493
ROOT_OF_MINUS_ONE = pow(2, (P - 1) // 4, P)
NEUTRAL = (0, 1, 1, 0)


def point_add(p, q):
    a, b = (p[1] - p[0]) * (q[1] - q[0]) % P, (p[1] + p[0]) * (q[1] + q[0]) % P
    c, d = 2 * p[3] * q[3] * D % P, 2 * p[2] * q[2] % P
    e, f, g, h = b - a, d - c, d + c, b + a
    return (e * f % P, g * h % P, f * g % P, e * h % P)


def point_times(s, p):
    q = NEUTRAL
    while s > 0:
        if s & 1:
            q = point_add(q, p)
        p = point_add(p, p)
        s >>= 1
    return q


def same_point(p, q):
    return (p[0] * q[2] - q[0] * p[2]) % P == 0 and (p[1] * q[2] - q[1] * p[2]) % P == 0


def recover_x(y, sign):
    if y >= P:
        return None
    x2 = (y * y - 1) * pow(D * y * y + 1, P - 2, P) % P
    if x2 == 0:
        return None if sign else 0
    x = pow(x2, (P + 3) // 8, P)
    if (x * x - x2) % P != 0:
        x = x * ROOT_OF_MINUS_ONE % P
    if (x * x - x2) % P != 0:
        return None
    return P - x if (x & 1) != sign else x


def decompress(data):
    y = int.from_bytes(data, "little")
    sign = y >> 255
    y &= (1 << 255) - 1
    x = recover_x(y, sign)
    return None if x is None else (x, y, 1, x * y % P)


BASE_Y = 4 * pow(5, P - 2, P) % P
BASE_X = recover_x(BASE_Y, 0)
BASE = (BASE_X, BASE_Y, 1, BASE_X * BASE_Y % P)


def ed25519_verifies(public, message, signature):
    if len(public) != 32 or len(signature) != 64:
        return False
    a, r, s = decompress(public), decompress(signature[:32]), int.from_bytes(signature[32:], "little")
    if a is None or r is None or s >= ORDER or same_point(point_times(8, a), NEUTRAL):
        return False
    k = int.from_bytes(hashlib.sha512(signature[:32] + public + message).digest(), "little") % ORDER
    left, right = point_times(s, BASE), point_add(r, point_times(k, a))
    return same_point(point_times(8, left), point_times(8, right))


# Base64, hex, texts.


def from_base64(text):
    try:
        data = base64.b64decode(text.encode("ascii"), validate=True)
    except (UnicodeEncodeError, binascii.Error):
        return None
    return data if base64.b64encode(data).decode() == text else None


def hash_or_nothing(text):
    return bytes.fromhex(text) if re.fullmatch("[0-9a-f]{64}", text) else None


def has_surrogate(text):
    return any("\ud800" <= c <= "\udfff" for c in text)


WHITE = set("\t\n\v\f\r \x85\xa0\u1680\u2028\u2029\u202f\u205f\u3000\ufeff") | {chr(c) for c in range(0x2000, 0x200B)}


def is_name(text):
    return text != "" and not has_surrogate(text) and all(c != "+" and c not in WHITE and unicodedata.category(c) != "Cc" for c in text)


def is_note_text(text):
    return not has_surrogate(text) and all(c >= " " or c == "\n" for c in text)


# Keys, notes, checkpoints (c2sp.org/signed-note, c2sp.org/tlog-checkpoint).


def read_key(text, kind=1):
    parts = text.split("+", 2)
    if len(parts) != 3:
        return None
    name, key_id, material = parts
    data = from_base64(material)
    if not is_name(name) or not re.fullmatch("[0-9a-f]{8}", key_id) or data is None or len(data) != 33 or data[0] != kind:
        return None
    if sha256(name.encode(), b"\n", data)[:4].hex() != key_id:
        return None
    return name, bytes.fromhex(key_id), data[1:]


def read_signature_line(line):
    parts = line.split(" ")
    if len(parts) != 3 or parts[0] != "\u2014" or not is_name(parts[1]):
        return None
    data = from_base64(parts[2])
    return None if data is None or len(data) < 5 else (parts[1], data[:4], data[4:])


def open_note(note, key_text):
    """The finding, and the text where it is good."""
    key = read_key(key_text)
    if key is None:
        return "malformed-key", None
    split = note.rfind("\n\n")
    if split < 0 or not is_note_text(note) or not note.endswith("\n"):
        return "malformed-note", None
    text, after = note[: split + 1], note[split + 2 :]
    if not after.endswith("\n"):
        return "malformed-note", None
    lines = [read_signature_line(line) for line in after[:-1].split("\n")]
    if len(lines) > 100 or None in lines:
        return "malformed-note", None
    name, key_id, public = key
    ours = [signature for (n, i, signature) in lines if n == name and i == key_id]
    if not ours:
        return "not-signed-by-key", None
    if not all(ed25519_verifies(public, text.encode(), signature) for signature in ours):
        return "signature-wrong", None
    return "good", text


def read_checkpoint(text):
    lines = text[:-1].split("\n")
    if len(lines) < 3 or "" in lines or not re.fullmatch("0|[1-9][0-9]*", lines[1]) or len(lines[1]) > 16 or int(lines[1]) > LARGEST:
        return None
    root = from_base64(lines[2])
    if root is None or len(root) != 32:
        return None
    return {"origin": lines[0], "size": int(lines[1]), "root": root}


# Statements about keys.

TYPES = {"key-handover/1": "good", "key-lost/1": "lost"}


def read_change(note):
    """Origin, type, the key before, the key after, size; or None."""
    split = note.rfind("\n\n")
    if split < 0 or not is_note_text(note):
        return None
    lines = note[:split].split("\n")
    if len(lines) != 5 or lines[1] not in TYPES or lines[2] == lines[3]:
        return None
    keys = [read_key(lines[2]), read_key(lines[3])]
    if None in keys or any(key[0] != lines[0] for key in keys):
        return None
    if not re.fullmatch("0|[1-9][0-9]{0,15}", lines[4]) or int(lines[4]) > LARGEST:
        return None
    return lines[0], TYPES[lines[1]], lines[2], lines[3], int(lines[4])


def judge_change(at, changes, notes, key_text):
    if changes[at] is None:
        return "malformed-statement"
    origin, kind, before, after, size = changes[at]
    if origin != read_key(key_text)[0]:
        return "another-origin"
    finding, _ = open_note(notes[at], before if kind == "good" else after)
    if finding != "good":
        return finding
    if at > 0 and (changes[at - 1] is None or changes[at - 1][3] != before or changes[at - 1][4] > size):
        return "does-not-follow"
    used = [key for change in changes[:at] if change is not None for key in change[2:4]] + [before]
    if after in used or (at == len(changes) - 1 and after != key_text):
        return "does-not-follow"
    return kind


def follow_keys(notes, key_text):
    """What is found of each statement, and each key with the least and the most entries that it seals; no keys where they do not lead on."""
    if read_key(key_text) is None:
        return [], [(key_text, 0, LARGEST)]
    changes = [read_change(note) for note in notes]
    found = [{"size": None if c is None else c[4], "finding": judge_change(i, changes, notes, key_text)} for i, c in enumerate(changes)]
    if any(f["finding"] not in ("good", "lost") for f in found):
        return found, []
    sizes = [0, *[c[4] for c in changes], LARGEST]
    keys = [*[c[2] for c in changes], key_text]
    return found, [(key, sizes[i], sizes[i + 1]) for i, key in enumerate(keys)]


def open_seal(note, keys):
    """The finding, what the seal says, and which of the keys signed it."""
    for turn in reversed(range(len(keys))):
        key, least, most = keys[turn]
        finding, text = open_note(note, key)
        if finding == "not-signed-by-key":
            continue
        if finding != "good":
            return finding, None, None
        said = read_checkpoint(text)
        if said is None:
            return "malformed-checkpoint", None, None
        return ("good", said, turn) if least <= said["size"] <= most else ("key-out-of-turn", None, None)
    return ("not-signed-by-key" if keys else "key-not-led-to"), None, None


# The tree (RFC 9162, section 2.1).


def leaf_hash(data):
    return sha256(b"\x00", data)


def node_hash(left, right):
    return sha256(b"\x01", left, right)


def root_of(leaves):
    """Section 2.1.1, from the left with a stack of perfect subtrees: no recursion, whatever the size."""
    stack = []
    for leaf in leaves:
        stack.append((1, leaf))
        while len(stack) > 1 and stack[-1][0] == stack[-2][0]:
            (n, right), (_, left) = stack.pop(), stack.pop()
            stack.append((2 * n, node_hash(left, right)))
    if not stack:
        return sha256()
    root = stack.pop()[1]
    while stack:
        root = node_hash(stack.pop()[1], root)
    return root


def inclusion_verifies(index, size, leaf, proof, root):
    """Section 2.1.3.2."""
    if index < 0 or index >= size:
        return False
    fn, sn, r = index, size - 1, leaf
    for p in proof:
        if sn == 0:
            return False
        if fn & 1 or fn == sn:
            r = node_hash(p, r)
            while not fn & 1 and fn != 0:
                fn, sn = fn >> 1, sn >> 1
        else:
            r = node_hash(r, p)
        fn, sn = fn >> 1, sn >> 1
    return sn == 0 and r == root


def consistency_verifies(first, second, first_root, second_root, proof):
    """Section 2.1.4.2, and the two cases that the page adds."""
    if first > second:
        return False
    if first == 0:
        return proof == [] and first_root == sha256() and (second > 0 or second_root == first_root)
    if first == second:
        return proof == [] and first_root == second_root
    path = [first_root, *proof] if first & (first - 1) == 0 else list(proof)
    if not path:
        return False
    fn, sn = first - 1, second - 1
    while fn & 1:
        fn, sn = fn >> 1, sn >> 1
    fr = sr = path[0]
    for c in path[1:]:
        if sn == 0:
            return False
        if fn & 1 or fn == sn:
            fr, sr = node_hash(c, fr), node_hash(c, sr)
            while not fn & 1 and fn != 0:
                fn, sn = fn >> 1, sn >> 1
        else:
            sr = node_hash(sr, c)
        fn, sn = fn >> 1, sn >> 1
    return sn == 0 and fr == first_root and sr == second_root


# Canonical JSON (RFC 8785). Every number is a double, as the RFC has it.


def number_text(x):
    """ECMAScript's Number::toString, from the shortest digits that Python's repr gives."""
    if x != x or x in (float("inf"), float("-inf")):
        raise ValueError("no JSON number")
    if x == 0:
        return "0"
    if x < 0:
        return "-" + number_text(-x)
    parts = repr(x).split("e")
    mantissa, exponent = parts[0], int(parts[1]) if len(parts) > 1 else 0
    whole, _, fraction = mantissa.partition(".")
    digits = whole + ("" if fraction == "0" else fraction)
    n = len(whole) + exponent
    stripped = digits.lstrip("0")
    n -= len(digits) - len(stripped)
    digits = stripped.rstrip("0")
    k = len(digits)
    if k <= n <= 21:
        return digits + "0" * (n - k)
    if 0 < n <= 21:
        return digits[:n] + "." + digits[n:]
    if -6 < n <= 0:
        return "0." + "0" * -n + digits
    e = n - 1
    return digits[0] + ("." + digits[1:] if k > 1 else "") + "e" + ("+" if e > 0 else "-") + str(abs(e))


SHORT = {"\b": "\\b", "\t": "\\t", "\n": "\\n", "\f": "\\f", "\r": "\\r", '"': '\\"', "\\": "\\\\"}


def string_text(s):
    if has_surrogate(s):
        raise ValueError("half a surrogate pair")
    return '"' + "".join(SHORT.get(c) or (f"\\u{ord(c):04x}" if c < " " else c) for c in s) + '"'


def canonical_text(value, depth=0):
    if depth > 100:
        raise ValueError("nested too deep")
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, float):
        return number_text(value)
    if isinstance(value, str):
        return string_text(value)
    if isinstance(value, list):
        return "[" + ",".join(canonical_text(item, depth + 1) for item in value) + "]"
    names = sorted(value, key=lambda name: name.encode("utf-16-be", "surrogatepass"))
    return "{" + ",".join(string_text(name) + ":" + canonical_text(value[name], depth + 1) for name in names) + "}"


def refuse_constant(_):
    raise ValueError("no JSON")


def value_if_canonical(data):
    """The value in a list of one, or None."""
    try:
        value = json.loads(data.decode("utf-8"), parse_int=float, parse_constant=refuse_constant)
        return [value] if canonical_text(value).encode("utf-8") == data else None
    except (ValueError, RecursionError):
        return None


# The file's shape.


def is_whole(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool) and value == value and abs(value) <= LARGEST and value == int(value)


def is_text(value):
    return isinstance(value, str)


def is_texts(value):
    return isinstance(value, list) and all(is_text(item) for item in value)


def list_of(shape):
    return lambda value: isinstance(value, list) and all(has(item, **shape) for item in value)


def has(value, **members):
    """A member whose name here begins with `or_` may be missing."""
    if not isinstance(value, dict):
        return False
    for name, fits in members.items():
        optional, name = name.startswith("or_"), name.removeprefix("or_")
        if name in value:
            if not fits(value[name]):
                return False
        elif not optional:
            return False
    return True


def is_count(value):
    return is_whole(value) and value >= 0


WORD = dict(field=is_text, salt=is_text, text=is_text)
ENTRY = dict(seq=is_whole, or_bytesBase64=is_text, or_withheldLeafHex=is_text, or_proofHex=is_texts, or_words=list_of(WORD))
EARLIER = dict(checkpoint=is_text, or_cosignatures=is_texts, or_proofHex=is_texts)
BOOK = dict(
    name=is_text, checkpoint=is_text, or_cosignatures=is_texts, verifierKey=is_text, first=is_count, count=is_count, entries=list_of(ENTRY), or_earlier=list_of(EARLIER)
)


def read_bundle(data):
    try:
        bundle = json.loads(data.decode("utf-8"), parse_constant=refuse_constant)
    except (ValueError, RecursionError):
        return None
    if not has(bundle, format=lambda f: isinstance(f, str) and f in FORMATS, books=lambda b: list_of(BOOK)(b) and len(b) > 0):
        return None
    if bundle["format"] == FORMATS[1] and not all(has(book, or_keys=is_texts) for book in bundle["books"]):
        return None
    return bundle


# What is found.


def words_fit(words, value):
    for word in words:
        try:
            committed = value["input"]["words"][word["field"]]
        except (TypeError, KeyError):
            return False
        if not re.fullmatch("[0-9a-f]{32}", word["salt"]) or has_surrogate(word["text"]):
            return False
        if committed != sha256(bytes.fromhex(word["salt"]), word["text"].encode()).hex():
            return False
    return True


def leaf_of(entry):
    """Bytes and leaf, each None where there is none."""
    coded, leaf = entry.get("bytesBase64"), entry.get("withheldLeafHex")
    data = None if coded is None else from_base64(coded)
    if coded is not None and leaf is not None:
        return data, None
    if coded is not None:
        return data, None if data is None else leaf_hash(data)
    return None, None if leaf is None else hash_or_nothing(leaf)


def proof_of(holder):
    """Whether one was given, and the hashes or None where one of them is none."""
    steps = holder.get("proofHex")
    if steps is None:
        return False, []
    hashes = [hash_or_nothing(step) for step in steps]
    return True, None if None in hashes else hashes


def judge_entry(entry, place, data, leaf, seal, fits):
    if place is not None:
        return place
    proven, proof = proof_of(entry)
    if leaf is None or proof is None:
        return "malformed"
    if not proven and fits is None:
        return "no-proof"
    seq = int(entry["seq"])
    stands = inclusion_verifies(seq, seal["size"], leaf, proof, seal["root"]) if proven else fits and seq < seal["size"]
    if not stands:
        return "not-in-the-tree"
    words = entry.get("words", [])
    if data is None:
        return "word-differs" if words else "in-the-tree-body-withheld"
    value = value_if_canonical(data)
    if value is None:
        return "not-canonical"
    return "in-the-tree" if words_fit(words, value[0]) else "word-differs"


def judge_earlier(earlier, keys, seal, whole):
    finding, one, _ = open_seal(earlier["checkpoint"], keys)
    if one is None:
        return {"size": None, "rootHex": None, "finding": finding}
    proven, proof = proof_of(earlier)
    if one["origin"] != seal["origin"]:
        finding = "another-origin"
    elif not proven and whole is None:
        finding = "no-proof"
    elif whole is not None and (one["size"] > len(whole) or root_of(whole[: one["size"]]) != one["root"]):
        finding = "history-differs"
    elif proven and (proof is None or not consistency_verifies(one["size"], seal["size"], one["root"], seal["root"], proof)):
        finding = "history-differs"
    return {"size": one["size"], "rootHex": one["root"].hex(), "finding": finding}


def gaps_in(book, first, count):
    numbers = sorted({int(e["seq"]) for e in book["entries"] if first <= e["seq"] < first + count})
    starts, following = [], first
    for seq in [*numbers, first + count]:
        if seq > following:
            starts.append(following)
        following = seq + 1
    return starts, count - len(numbers)


def keys_of(book, form):
    return follow_keys(book.get("keys", []) if form == FORMATS[1] else [], book["verifierKey"])


def verify_book(book, form):
    report = dict(ok=False, name=book["name"], seal="", origin=None, size=None, rootHex=None, wholeTree="not-given")
    report |= dict(counts={}, findings=[], wordsOpened=0, earlier=[])
    report["keys"], keys = keys_of(book, form)
    report["seal"], seal, _ = open_seal(book["checkpoint"], keys)
    if seal is None:
        return report
    first, count = int(book["first"]), int(book["count"])
    seen, last, read = set(), -1, []
    for entry in book["entries"]:
        seq = int(entry["seq"])
        misplaced = seq <= last or not first <= seq < first + count
        read.append((entry, "given-twice" if seq in seen else "out-of-place" if misplaced else None, *leaf_of(entry)))
        seen.add(seq)
        last = max(last, seq)
    by_seq = {int(entry["seq"]): leaf for entry, _, _, leaf in read}
    complete = len(read) >= seal["size"] and all(by_seq.get(seq) is not None for seq in range(seal["size"]))
    whole = [by_seq[seq] for seq in range(seal["size"])] if complete else None
    fits = None if whole is None else root_of(whole) == seal["root"]
    findings = []
    for entry, place, data, leaf in read:
        finding = judge_entry(entry, place, data, leaf, seal, fits)
        findings.append({"seq": int(entry["seq"]), "finding": finding})
        report["counts"][finding] = report["counts"].get(finding, 0) + 1
        if finding == "in-the-tree":
            report["wordsOpened"] += len(entry.get("words", []))
    starts, missing = gaps_in(book, first, count)
    if missing > 0:
        report["counts"]["left-out"] = missing
    findings += [{"seq": seq, "finding": "left-out"} for seq in starts]
    report["findings"] = sorted((f for f in findings if f["finding"] != "in-the-tree"), key=lambda f: f["seq"])
    report["earlier"] = [judge_earlier(one, keys, seal, whole) for one in book.get("earlier", [])]
    report |= dict(origin=seal["origin"], size=seal["size"], rootHex=seal["root"].hex())
    report["wholeTree"] = "not-given" if fits is None else "fits" if fits else "differs"
    report["ok"] = (
        fits is not False
        and all(f["finding"] == "in-the-tree-body-withheld" for f in report["findings"])
        and all(e["finding"] == "good" for e in report["earlier"])
    )
    return report


def good_seals(book, report):
    """The seals that can be relied on, each with its size and root."""
    if report["seal"] != "good":
        return []
    earlier = zip(book.get("earlier", []), report["earlier"])
    return [(book, report)] + [(one, found) for one, found in earlier if found["finding"] == "good"]


def cosigned_at(line, text, witness):
    """None where it is another's, False where it is wrong, else the time."""
    read, (name, key_id, public) = read_signature_line(line), witness
    if read is None or read[:2] != (name, key_id):
        return None
    seconds = int.from_bytes(read[2][:8], "big")
    message = f"cosignature/v1\ntime {seconds}\n{text}".encode()
    good = len(read[2]) == 72 and seconds <= LARGEST and ed25519_verifies(public, message, read[2][8:])
    return seconds if good else False


def find_witness(witness, book, report):
    largest = None
    for one, found in good_seals(book, report):
        text = one["checkpoint"][: one["checkpoint"].rfind("\n\n") + 1]
        for line in one.get("cosignatures", []):
            seconds = cosigned_at(line, text, witness)
            if seconds is False:
                return [{"finding": "cosignature-wrong", "origin": report["origin"]}]
            if seconds is not None and (largest is None or found["size"] > largest["size"]):
                largest = {"size": found["size"], "seconds": seconds}
    return [] if largest is None else [{"finding": "is-a-witness-here", "origin": report["origin"], "cosigned": largest}]


def find_held(text, bundle, reports):
    text = text.strip()
    nothing = [{"finding": "not-here", "origin": None}]
    witness = read_key(text, 4)
    if witness is not None:
        return [found for book, report in zip(bundle["books"], reports) for found in find_witness(witness, book, report)] or nothing
    for book, report in zip(bundle["books"], reports):
        if report["seal"] != "good":
            continue
        found, keys = keys_of(book, bundle["format"])
        had = [turn for turn, (key, _, _) in enumerate(keys) if key == text]
        if had:
            signer = open_seal(book["checkpoint"], keys)[2]
            good = had[0] >= signer or all(f["finding"] == "good" for f in found[had[0] : signer])
            return [{"finding": "is-a-key-here" if good else "is-a-lost-key-here", "origin": report["origin"]}]
        if any(text == one["checkpoint"].strip() or text.lower() == found["rootHex"] for one, found in good_seals(book, report)):
            return [{"finding": "is-a-seal-here", "origin": report["origin"]}]
    return nothing


def verify_bundle(bundle, had=()):
    books = [verify_book(book, bundle["format"]) for book in bundle["books"]]
    held = [found for text in had if text.strip() for found in find_held(text, bundle, books)]
    return {"ok": all(b["ok"] for b in books) and all(h["finding"] not in ("not-here", "cosignature-wrong", "is-a-lost-key-here") for h in held), "books": books, "held": held}


def main(words):
    as_json, had, files = False, [], []
    rest = iter(words)
    for word in rest:
        if word == "--json":
            as_json = True
        elif word == "--had":
            had.append(next(rest, ""))
        else:
            files.append(word)
    if len(files) != 1:
        print(__doc__)
        return 2
    with open(files[0], "rb") as file:
        bundle = read_bundle(file.read())
    if bundle is None:
        print("This file is no bundle of the formats " + ", ".join(FORMATS) + ".")
        return 2
    report = verify_bundle(bundle, had)
    if as_json:
        print(json.dumps(report))
    else:
        for book in report["books"]:
            print(f"{plain_name(book['name'])}: seal {book['seal']}, tree {book['wholeTree']}, {book['counts']}")
            for change in book["keys"]:
                if change["finding"] == "lost":
                    print(f"{plain_name(book['name'])}: THE KEY WAS LOST after {change['size']} entries: a key or paper from before proves nothing of what came later.")
                    continue
                print(f"  key changed after {change['size']} entries: {change['finding']}")
            for found in book["findings"]:
                print(f"  entry {found['seq']}: {found['finding']}")
            for earlier in book["earlier"]:
                print(f"  seal over {earlier['size']} entries: {earlier['finding']}")
        for held in report["held"]:
            print(f"What you had before: {held['finding']}")
        print("All that was checked fits." if report["ok"] else "Something does not fit.")
        print("What that proves, and what it does not, stands in the format's page.")
    return 0 if report["ok"] else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
