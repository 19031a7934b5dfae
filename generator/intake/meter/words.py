"""What meters call their columns, in the languages of the files seen; common practice, no source."""

from __future__ import annotations

import re

_TIMES = frozenset((
    "time", "t", "elapsed", "duration", "runtime", "seconds", "sec", "secs", "s", "minutes", "hours",
    "timestamp", "datetime", "date", "clock", "zeit", "datum", "uhrzeit", "laufzeit", "zeitstempel",
    "messzeit", "temps", "heure", "durée", "fecha", "hora", "tiempo", "ora", "tempo", "tijd", "czas", "tid",
    "日付", "時間", "時刻", "日時", "经过时间", "时间", "日期",
))  # fmt: skip
_CLOCKS = frozenset(["clock", "uhrzeit", "heure", "hora", "ora", "時刻"])
_COUNTERS = frozenset((
    "#", "no", "nr", "n°", "num", "number", "idx", "index", "id", "scan", "place", "frame", "record", "rec",
    "row", "point", "sample", "lfd", "nummer", "numéro", "messung", "番号", "序号", "reading",
))  # fmt: skip
_SAMPLES = frozenset(("samples", "sample count", "no of samples", "n", "anzahl", "messwerte"))
_MILLISECONDS = frozenset(("ms", "msec", "millis", "milliseconds", "millisecond"))
_REMARKS = re.compile(
    r"remark|remarque|comment|note|bemerkung|kommentar|observation|annotation|message|備考|コメント",
    re.IGNORECASE,
)
_EVENTS = re.compile(r"event|ereignis|marker?\b|marke|trigger", re.IGNORECASE)
_STATES = re.compile(r"alarm|status|state|flag|relay|output|warnung|警報", re.IGNORECASE)
_UNITS = re.compile(r"units?(?: \d+)?|einheit|unité|unidad|unità|単位|eenheid", re.IGNORECASE)
_WORD = re.compile(r"#|n°|[^\W\d_]+|\d+")
_ASIDE = re.compile(r"[(\[{][^()\[\]{}]*[)\]}]|,.*$|/\s*\S+$")

LOGGED = frozenset(("logged", "x", "yes", "true", "1", "ja", "oui"))
"""What stands in a column that is called as its event."""

AVERAGES = frozenset(("avg", "ave", "average", "mean", "mittel", "mittelwert", "moyenne"))
HIGHEST = frozenset(("max", "maximum", "peak", "hot", "hottest", "höchst"))
LOWEST = frozenset(("min", "minimum", "cold", "coldest"))
_STATISTICS = AVERAGES | HIGHEST | LOWEST | {"last", "primary"}


def is_time_name(name: str) -> bool:
    """Whether a column is called a time: its first word is one, as in `Time (s)`, `t/s`, `日付 時間`."""
    said = _ASIDE.sub(" ", name)
    words = _words(said)
    if not words or words[0] not in _TIMES:
        return False
    # "t" is a time, "T" a temperature.
    return len(words[0]) > 1 or (len(words) == 1 and said.strip().islower())


def is_clock_name(name: str) -> bool:
    """Whether the name says that it is the time of day."""
    return any(word in _CLOCKS for word in _words(name)) or "time of day" in name.casefold()


def is_elapsed_name(name: str) -> bool:
    """Whether the name says that it counts from a start."""
    return bool({"elapsed", "duration", "runtime", "laufzeit", "durée"} & set(_words(name)))


def is_counter_name(name: str) -> bool:
    """Whether a column is called a number of rows: `#`, `NO.`, `Frame`, `番号`; or is not called at all."""
    words = _words(name)
    return not words or (len(words) <= 2 and words[0] in _COUNTERS)


def is_samples_name(name: str) -> bool:
    """Whether a column says how many samples an average is of."""
    return " ".join(_words(name)) in _SAMPLES


def is_milliseconds_name(name: str) -> bool:
    """Whether a column is called the milliseconds beside a clock."""
    return " ".join(_words(name)) in _MILLISECONDS


def is_unit_name(name: str) -> bool:
    """Whether a column is called the unit of the one before it."""
    return not name or bool(_UNITS.fullmatch(name))


def is_remark_name(name: str) -> bool:
    """Whether a column is called a person's remarks."""
    return bool(_REMARKS.search(name))


def is_event_name(name: str) -> bool:
    """Whether a column is called the meter's events."""
    return bool(_EVENTS.search(name))


def is_state_name(name: str) -> bool:
    """Whether a column is called the state of an alarm or an output."""
    return bool(_STATES.search(name))


def statistic(name: str) -> tuple[str, str]:
    """What a statistic is of, and which: `Ar1.Max [°C]` → (`ar1`, `max`); (`t1`, ``) where it is none."""
    words = _words(_ASIDE.sub(" ", name))
    found = next((word for word in words if word in _STATISTICS), "")
    return " ".join(word for word in words if word != found), found


def _words(name: str) -> list[str]:
    return [word.casefold() for word in _WORD.findall(name)]
