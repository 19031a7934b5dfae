"""What is known to go wrong with meters' files elsewhere: one test a failure, by its symptom."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, timedelta, timezone
from decimal import Decimal

import pytest

from generator.intake.meter.hints import Hints
from generator.intake.meter.reader import read_meter_file
from generator.intake.meter.series import MeterFile, Problem, Unreadable
from tests.intake.meter.test_reader import bytes_of, expected, hints_of, read

HEAD = "Time (s),T [°C],I (A)"


def taken(lines: str | Iterable[str], hints: Hints | None = None, encoding: str = "utf-8") -> MeterFile:
    text = lines if isinstance(lines, str) else "".join(f"{line}\n" for line in lines)
    return read_meter_file(text.encode(encoding), "meter.csv", hints or Hints())


def refused(lines: str | Iterable[str], hints: Hints | None = None, encoding: str = "utf-8") -> Problem:
    with pytest.raises(Unreadable) as caught:
        taken(lines, hints, encoding)
    return caught.value.problems[0]


def values(file: MeterFile, name: str) -> list[str | None]:
    return list(file.column(name).values)


def seconds(file: MeterFile) -> list[str]:
    return [str(each) for each in file.elapsed_s]


# 4.1: what stands where a reading can't


@pytest.mark.parametrize(
    ("token", "means", "bound"),
    [
        ("OL", "over range", ">"),
        ("-OL", "under range", "<"),
        ("O.L", "over range", ">"),
        ("OVLD", "over range", ">"),
        ("+9.90000000E+37", "over range", ">"),
        ("-9.9E+37", "under range", "<"),
        ("9.99999999e+37", "over range", ">"),
        (">150.0", "over range", ">"),
        ("< -20", "under range", "<"),
        ("inf", "over range", ">"),
        ("OPEN", "no probe", ""),
        ("BURNOUT", "no probe, or a broken one", ""),
        ("***", "no reading", ""),
        ("----", "no reading", ""),
        ("--.-", "no reading", ""),
        ("", "no reading", ""),
        ("-300.0", "below absolute zero", ""),
    ],
)
def test_a_word_or_a_size_in_place_of_a_reading_is_kept_as_its_reason(
    token: str, means: str, bound: str
) -> None:
    file = taken([HEAD, "0,21.5,30.1", f"10,{token},30.0", "20,21.9,30.0"])
    assert values(file, "T [°C]") == ["21.5", None, "21.9"]
    assert [(each.line, each.token, each.means, each.bound) for each in file.not_readings] == [
        (3, token, means, bound)
    ]


def test_a_bound_keeps_its_limit() -> None:
    file = taken([HEAD, "0,21.5,30.1", "10,>150.0,30.0"])
    assert file.not_readings[0].limit == "150.0"


def test_a_reading_at_the_end_of_a_cameras_range_is_a_bound() -> None:
    file = taken(["Measurement range,-20.0 to 150.0 °C", "", HEAD, "0,21.5,30.1", "10,150.0,30.0"])
    assert values(file, "T [°C]") == ["21.5", None]
    assert (file.not_readings[0].bound, file.not_readings[0].limit) == (">", "150.0")


def test_a_word_that_is_none_of_those_known_is_refused_at_its_cell() -> None:
    problem = refused([HEAD, "0,21.5,30.1", "10,see note,30.0"])
    assert (problem.line, problem.column, problem.found) == (3, 4, "see note")


def test_an_average_of_nought_beside_no_samples_is_no_reading() -> None:
    head = "Time (s),Max (A),Avg (A),Min (A),samples"
    file = taken([head, "0,30.2,30.1,30.0,30", "10,9.9e37,0,9.9e37,0", "20,30.2,30.1,30.0,30"])
    assert values(file, "Avg (A)") == ["30.1", None, "30.1"]
    assert [(each.column, each.means) for each in file.not_readings] == [
        ("Max (A)", "over range"),
        ("Avg (A)", "no samples"),
        ("Min (A)", "over range"),
    ]


def test_an_average_between_extremes_out_of_range_is_no_reading_without_a_count_of_samples_too() -> None:
    file = taken(["Time (s),Max (A),Avg (A),Min (A)", "0,30.2,30.1,30.0", "10,9.9e37,0,9.9e37"])
    assert values(file, "Avg (A)") == ["30.1", None]


# 4.2: day or month


def test_two_orders_that_fit_all_rows_are_refused_with_both_days() -> None:
    problem = refused(["Date,Time,T [°C]", "05/02/24,10:00:00,20.1", "06/02/24,10:00:00,20.2"])
    assert problem.line == 2
    assert problem.settles == (
        "--date-order dmy (2024-02-05)",
        "--date-order mdy (2024-05-02)",
        "--date-order ymd (2005-02-24)",
    )


def test_one_row_above_twelve_settles_the_order_of_all() -> None:
    file = taken(["Date,Time,T [°C]", "05/02/2024,10:00:00,20.1", "13/02/2024,10:00:00,20.2"])
    assert file.time.first == datetime(2024, 2, 5, 10)  # noqa: DTZ001
    assert seconds(file) == ["0", str(8 * 86400)]


def test_rows_of_which_no_one_order_fits_all_are_refused() -> None:
    problem = refused(["Date,Time,T [°C]", "13/02/2024,10:00:00,20.1", "02/13/2024,10:05:00,20.2"])
    assert problem.line == 3


@pytest.mark.parametrize("key", ["04", "06", "10"])
def test_without_the_hint_the_date_is_asked_for(key: str) -> None:
    told = expected(key)
    told["hints"].pop("date_order")
    with pytest.raises(Unreadable) as caught:
        read_meter_file(bytes_of(key), told["file"], hints_of(told))
    assert all(each.startswith("--date-order ") for each in caught.value.problems[0].settles)


def test_a_hint_that_the_file_contradicts_is_refused() -> None:
    problem = refused(["Time,T [°C]", "2026-02-14 10:00:00,20.1"], Hints(date_order="dmy"))
    assert problem.settles == ("leave --date-order out",)


def test_a_step_that_is_no_multiple_of_the_interval_is_refused() -> None:
    rows = ["Interval,300,s", "Time,T [°C]", "2026-02-14 10:00:00,20.1", "2026-02-14 10:05:00,20.2"]
    assert seconds(taken(rows)) == ["0", "300"]
    assert refused([*rows, "2026-02-14 10:11:00,20.2"]).line == 5


def test_a_format_below_the_name_settles_the_order() -> None:
    file = taken(["Time;P", ";kW", "dd/MM/yyyy HH:mm;kW", "05/02/2024 10:00;1.5", "05/02/2024 10:05;1.5"])
    assert file.time.date_order == "dmy"


# 4.3: clocks


def test_midnight_is_passed_where_a_time_without_a_date_falls_by_more_than_half_a_day() -> None:
    file = taken(["Time;T [°C]", "23:59:30;20.1", "00:00:00;20.2", "00:00:30;20.3"])
    assert seconds(file) == ["0", "30", "60"]
    assert [(each.kind, each.lines) for each in file.warnings] == [("over midnight", (2, 3))]


def test_twenty_four_hours_are_the_next_days_nought() -> None:
    file = taken(["Time;T [°C]", "2026-02-14 23:55;20.1", "2026-02-14 24:00;20.2", "2026-02-15 00:05;20.3"])
    assert seconds(file) == ["0", "300", "600"]
    undated = taken(
        ["Time;T [°C]", "23:55;20.1", "24:00;20.2", "00:05;20.3"], Hints(run_date=date(2026, 2, 14))
    )
    assert seconds(undated) == ["0", "300", "600"]


def test_a_smaller_fall_is_refused() -> None:
    assert refused(["Time;T [°C]", "10:00:00;20.1", "09:59:30;20.2"]).line == 3
    problem = refused(["Time;T [°C]", "0:00:00;20.1", "10:00:30;20.2", "0:00:00;20.3"])
    assert "began anew" in problem.what


FALL_BACK = [
    "Time;T [°C]",
    *(f"2026-10-25 {at}:00;20.1" for at in ("01:30", "02:00", "02:30", "02:00", "02:30", "03:00")),
]


def test_a_clock_set_back_is_told_apart_by_its_zone_and_refused_without() -> None:
    # Europe/Berlin went back from 03:00 to 02:00 on 25 October 2026 (IANA time zone database).
    file = taken(FALL_BACK, Hints(zone="Europe/Berlin"))
    assert seconds(file) == ["0", "1800", "3600", "5400", "7200", "9000"]
    assert [(each.kind, each.lines) for each in file.warnings] == [("clock set back", (5,))]
    assert file.time.last is not None
    assert file.time.last.isoformat() == "2026-10-25T03:00:00+01:00"
    problem = refused(FALL_BACK)
    assert problem.line == 5
    assert problem.settles == ("--zone Europe/Berlin",)


def test_the_hour_that_came_twice_is_refused_where_the_rows_do_not_show_which_it_is() -> None:
    rows = ["Time;T [°C]", "2026-10-25 02:15:00;20.1", "2026-10-25 02:30:00;20.1"]
    problem = refused(rows, Hints(zone="Europe/Berlin"))
    assert problem.line == 2
    assert seconds(taken(rows, Hints(zone="+02:00"))) == ["0", "900"]


def test_a_time_that_the_clock_never_showed_is_refused() -> None:
    rows = ["Time;T [°C]", "2026-03-29 01:45:00;20.1", "2026-03-29 02:15:00;20.1"]
    assert refused(rows, Hints(zone="Europe/Berlin")).line == 3


def test_an_hour_too_much_at_night_is_a_gap_or_a_clock_set_forward_and_asked_about() -> None:
    rows = [
        "Time;T [°C]",
        *(f"2026-03-29 {at}:00;20.1" for at in ("01:15", "01:30", "01:45", "03:00", "03:15")),
    ]
    problem = refused(rows)
    assert problem.line == 5
    assert seconds(taken(rows, Hints(zone="Europe/Berlin")))[-1] == "3600"
    assert seconds(taken(rows, Hints(zone="+01:00")))[-1] == "7200"


def test_a_fixed_offset_in_the_header_holds_for_every_row() -> None:
    file = read("09")
    assert file.time.kind == "fixed offset"
    assert file.time.first is not None
    assert file.time.first.utcoffset() == timedelta(hours=1)


def test_a_time_of_day_past_its_end_is_refused_beside_a_date() -> None:
    rows = ["Date;Time;T [°C]", "05.04.2026;23:35:00;20.1", "05.04.2026;36:40:00;20.2"]
    assert refused(rows).line == 3


def test_a_stamp_in_another_form_than_the_first_is_refused() -> None:
    rows = ["Time;T [°C]", "2026-02-14 10:00:00;20.1", "2026-02-14T10:05:00;20.2"]
    assert refused(rows).line == 3


def test_offsets_in_the_rows_are_taken_into_account() -> None:
    file = taken(["Time;T [°C]", "2026-10-25T02:30:00+02:00;20.1", "2026-10-25T02:00:00+01:00;20.1"])
    assert seconds(file) == ["0", "1800"]


def test_an_offset_that_no_clock_has_is_refused() -> None:
    assert refused(["Time, GMT+91:00;T [°C]", "2026-02-14 10:00:00;20.1"]).line == 1


def test_stamps_without_seconds_are_spread_by_the_interval_alone() -> None:
    rows = ["Time;T [°C]", *(f"2026-02-14 {at};20.1" for at in ("9:55", "9:55", "9:56", "9:56"))]
    assert "1 row" not in refused(rows).what
    assert refused(rows).settles[0].startswith("--interval")
    file = taken(rows, Hints(interval_s=Decimal(30)))
    assert seconds(file) == ["0", "30", "60", "90"]
    assert [(each.kind, each.count) for each in file.warnings] == [("repeated stamps", 2)]
    assert refused(rows, Hints(interval_s=Decimal(45))).line == 5


def test_gaps_are_counted() -> None:
    file = taken([HEAD, "0,20.1,30", "10,20.2,30", "20,20.2,30", "50,20.2,30", "60,20.1,30", "80,20.2,30"])
    assert [(each.kind, each.lines, each.count, each.texts) for each in file.warnings] == [
        ("gaps", (5, 7), 2, ("3",))
    ]


def test_a_counter_that_rolls_over_goes_on_where_the_step_fits_and_is_refused_elsewhere() -> None:
    head = "Time (ms),T [°C]"
    fits = [head, "4294965296,20.1", "4294966296,20.2", "0,20.3", "1000,20.4"]
    assert seconds(taken(fits)) == ["0", "1", "2", "3"]
    assert refused([head, "4294965296,20.1", "4294966296,20.2", "17,20.3"]).line == 4


def test_elapsed_hours_go_on_past_a_day() -> None:
    file = taken(["Elapsed;T [°C]", "23:59:00;20.1", "24:00:00;20.2", "24:01:00;20.2"])
    assert seconds(file) == ["0", "60", "120"]
    assert file.time.kind == "elapsed"


@pytest.mark.parametrize(
    ("hints", "last"),
    [
        (Hints(time_unit="min"), "330"),
        (Hints(time_unit="h"), "19800"),
        (Hints(run_date=date(2026, 3, 8)), "19800"),
    ],
)
def test_two_parts_of_a_time_are_read_as_a_person_says(hints: Hints, last: str) -> None:
    rows = ["Time;T [°C]", "0:00;20.1", "5:30;20.2"]
    assert refused(rows).settles[1:] == ("--time-unit h", "--time-unit min")
    assert seconds(taken(rows, hints))[-1] == last


def test_half_past_midnight_is_half_past_twelve_am() -> None:
    file = taken(["Time;T [°C]", "03/29/26 12:30:00 AM;20.1", "03/29/26 01:00:00 PM;20.1"])
    assert seconds(file) == ["0", "45000"]
    assert refused(["Time;T [°C]", "03/29/26 13:30:00 AM;20.1"])


def test_without_a_column_of_time_the_interval_is_asked_for() -> None:
    rows = ["T [°C],I (A)", "20.1,30.0", "20.4,30.1", "20.9,30.1"]
    assert refused(rows).settles[0] == "--interval 10 s"
    file = taken(rows, Hints(interval_s=Decimal("0.5")))
    assert seconds(file) == ["0", "0.5", "1"]
    assert file.time.kind == "counted"
    assert [each.kind for each in file.warnings] == ["times from row numbers"]


def test_a_rate_in_a_comment_is_the_interval() -> None:
    file = taken(["; Samplerate: 4 Hz", "", "T [°C],I (A)", "20.1,30.0", "20.4,30.1"])
    assert seconds(file) == ["0", "0.25"]


def test_a_time_of_plain_numbers_needs_its_unit() -> None:
    rows = ["Time,T [°C]", "0,20.1", "5,20.4"]
    assert refused(rows).settles == ("--time-unit s", "--time-unit min")
    assert seconds(taken(rows, Hints(time_unit="min"))) == ["0", "300"]
    assert refused(["Time (s),T [°C]", "0,20.1", "5,20.4"], Hints(time_unit="min")).line == 1


# 4.4: a column further left

ALL_TEXT = ("01", "02", "03", "04", "05", "06", "07", "08", "09", "10", "11")
ENCODINGS = {"03": "cp1252", "08": "cp932", "10": "utf-16"}
SIGNS = {"03": ";", "05": "\t", "10": "\t", "11": ";"}


def same_or_refused(key: str, data: bytes) -> None:
    told, old = expected(key), read(key)
    try:
        file = read_meter_file(data, told["file"], hints_of(told))
    except Unreadable:
        return
    assert [(each.name, each.values) for each in file.columns] == [
        (each.name, each.values) for each in old.columns
    ]
    assert file.elapsed_s == old.elapsed_s


@pytest.mark.parametrize("key", ALL_TEXT)
def test_a_delimiter_more_or_less_at_the_end_changes_nothing_or_is_refused(key: str) -> None:
    encoding, sign = ENCODINGS.get(key, "utf-8"), SIGNS.get(key, ",")
    lines = bytes_of(key).decode(encoding).split("\n")
    first = expected(key)["first_data_line"] - 1
    for begin in (first, first + 1, expected(key)["header_line"] - 1):
        more = [
            line.rstrip("\r") + sign if number >= begin and line.strip() else line
            for number, line in enumerate(lines)
        ]
        same_or_refused(key, "\n".join(more).encode(encoding))
        less = [
            line.rstrip("\r").removesuffix(sign) if number >= begin else line
            for number, line in enumerate(lines)
        ]
        same_or_refused(key, "\n".join(less).encode(encoding))


def test_a_delimiter_at_the_end_of_rows_alone_moves_no_column() -> None:
    file = taken([HEAD, "0,21.5,30.1,", "10,21.7,30.0,"])
    assert values(file, "T [°C]") == ["21.5", "21.7"]


def test_a_row_with_more_or_fewer_cells_is_refused() -> None:
    assert refused([HEAD, "0,21.5,30.1", "10,21.7"]).line == 3
    assert refused([HEAD, "0,21.5,30.1", "10,21,7,30.1"]).line == 3
    assert refused([HEAD, "0,21.5,30.1", "10,21.7", "20,21.7,30.1"]).line == 3


def test_decimal_commas_between_commas_are_refused() -> None:
    problem = refused([HEAD, "0,21,5,30,1", "10,21,7,30,0"])
    assert problem.line == 2
    assert "decimal commas" in problem.what


def test_a_column_without_a_name_gives_its_readings_to_none() -> None:
    problem = refused(["Time (s),T [°C],", "0,21,5", "10,21,7"])
    assert "without a name" in problem.what


# 4.5: preambles, rows of units, tails


def test_the_header_is_found_by_its_names_wherever_it_stands() -> None:
    text = bytes_of("04").decode()
    told = expected("04")
    for more in (0, 1, 7):
        data = ("Remark:,one line more,\r\n" * more + text).encode()
        file = read_meter_file(data, "x", hints_of(told))
        assert file.header_line == 16 + more
        assert file.column("102 (C)").values == read("04").column("102 (C)").values


def test_a_row_of_units_is_no_data() -> None:
    file = taken(["Time,T,I", "s,degC,A", "0,21.5,30.1", "10,21.7,30.0"])
    assert [(each.name, each.unit and each.unit.typed) for each in file.columns] == [
        ("T", "degC"),
        ("I", "A"),
    ]
    assert file.units_line == 2


def test_what_follows_the_table_is_left_out_and_told() -> None:
    file = taken([HEAD, "0,21.5,30.1", "10,21.7,30.0", "", "Average,21.6,30.05", "2 records"])
    assert file.ignored_lines == (4, 5, 6)
    assert values(file, "T [°C]") == ["21.5", "21.7"]


def test_a_number_of_records_in_the_footer_is_held_against_the_rows() -> None:
    assert "3 rows" in refused([HEAD, "0,21.5,30.1", "10,21.7,30.0", "", "Exported: 3 records"]).what


def test_rows_that_go_on_behind_one_that_does_not_fit_are_refused() -> None:
    problem = refused([HEAD, "0,21.5,30.1", "pause,,", "10,21.7,30.0"])
    assert problem.line == 3
    assert "line 4" in problem.what


def test_a_second_header_is_refused() -> None:
    assert refused([HEAD, "0,21.5,30.1", HEAD, "0,21.7,30.0"]).line == 3


def test_a_column_that_the_file_has_not_is_refused_with_those_that_it_has() -> None:
    problem = refused([HEAD, "0,21.5,30.1"], Hints(columns={"CH9": "temperature"}))
    assert problem.line == 1
    assert "'T [°C]'" in problem.what


def test_a_name_that_two_columns_begin_with_is_refused() -> None:
    problem = refused(["Time (s),T case [°C],T amb [°C]", "0,21.5,20.1"], Hints(columns={"T": "temperature"}))
    assert len(problem.settles) == 2
    file = taken(["Time (s),T case [°C],T amb [°C]", "0,21.5,20.1"], Hints(columns={"2": "temperature"}))
    assert file.column("T case [°C]").mapped == "temperature"


# 4.6: encodings


@pytest.mark.parametrize(
    ("encoding", "found"),
    [
        ("utf-8-sig", "utf-8 with mark"),
        ("utf-8", "utf-8"),
        ("utf-16", "utf-16-le with mark"),
        ("cp1252", "cp1252"),
    ],
)
def test_each_encoding_gives_the_same(encoding: str, found: str) -> None:
    file = taken([HEAD, "0,21.5,30.1"], None, encoding)
    assert (file.encoding, values(file, "T [°C]")) == (found, ["21.5"])


def test_a_choice_among_encodings_is_told() -> None:
    assert [each.texts for each in taken([HEAD, "0,21.5,30.1"], None, "cp1252").warnings] == [("cp1252",)]
    assert taken([HEAD, "0,21.5,30.1"], Hints(encoding="cp1252"), "cp1252").warnings == ()


def test_two_encodings_that_fit_alike_are_asked_about() -> None:
    problem = refused(["Ger\u00e4t A,x", "Time (s),T (C)", "0,21.5"], None, "cp1252")
    assert problem.settles == ("--encoding cp1252", "--encoding cp932")


def test_a_lost_character_is_refused() -> None:
    assert refused([HEAD.replace("°", "\ufffd"), "0,21.5,30.1"]).line == 1


def test_utf_16_without_its_mark_is_asked_about() -> None:
    problem = refused([HEAD, "0,21.5,30.1"], None, "utf-16-le")
    assert problem.settles[0] == "--encoding utf-16-le"
    assert values(taken([HEAD, "0,21.5,30.1"], Hints(encoding="utf-16-le"), "utf-16-le"), "I (A)") == ["30.1"]


def test_an_encoding_that_does_not_fit_is_refused_at_its_byte() -> None:
    problem = refused(["Time (s),\u3001 (C)", "0,21.5"], Hints(encoding="cp1252"), "cp932")
    assert problem.line == 1
    assert "CP1252" in problem.what


# 4.7: delimiter and decimal sign


@pytest.mark.parametrize("sign", [";", "\t", "|"])
def test_decimal_commas_are_settled_by_the_file(sign: str) -> None:
    file = taken(["Time (s);T [°C]".replace(";", sign), f"0{sign}18,6", f"10{sign}20,55"])
    assert (file.delimiter, file.decimal, values(file, "T [°C]")) == (sign, ",", ["18.6", "20.55"])


def test_a_line_that_says_the_delimiter_is_taken_at_its_word() -> None:
    file = taken(["sep=;", "Time (s);T [°C]", "0;18,6", "10;20,5"])
    assert (file.header_line, values(file, "T [°C]")) == (2, ["18.6", "20.5"])
    assert refused(["sep=;", "Time (s);T [°C]", "0;18,6"], Hints(delimiter=",")).line == 1


def test_a_number_that_reads_two_ways_is_refused_where_nothing_settles_it() -> None:
    rows = ["Time (s);P (W)", "0;1,234", "10;1,235"]
    problem = refused(rows)
    assert (problem.line, problem.found) == (2, "1,234")
    assert problem.settles == ("--decimal point", "--decimal comma")
    assert values(taken(rows, Hints(decimal="comma")), "P (W)") == ["1.234", "1.235"]
    assert values(taken([*rows, "20;1,5"]), "P (W)") == ["1.234", "1.235", "1.5"]
    assert refused(rows, Hints(decimal="point")).line == 2


def test_both_signs_in_one_file_are_refused() -> None:
    assert refused(["Time (s);P (W)", "0;1.5", "10;1,6"]).line == 3


def test_groups_of_three_are_taken_where_the_decimal_sign_stands_too() -> None:
    assert values(taken(["Time (s);P (W)", "0;1,234.5", "10;20.5"]), "P (W)") == ["1234.5", "20.5"]
    assert refused(["Time (s);P (W)", "0;1,234", "10;20.5"]).line == 2


# 4.8: units in header, in row, in cell, or nowhere


@pytest.mark.parametrize(
    "name", ["T [°C]", "T (C)", "T/°C", "T, °C", "T degC", "T (deg C)", "T [℃]", "T (ﾟC)"]
)
def test_a_unit_in_the_name(name: str) -> None:
    quoted = f'"{name}"'
    unit = taken([f"Time (s),{quoted}", "0,21.5"]).columns[0].unit
    assert unit is not None
    assert unit.typed == "degC"


@pytest.mark.parametrize("name", ["CH1 min", "Sensor A", "T in", "Probe K", "Value", "C"])
def test_a_word_that_only_looks_like_a_unit_is_none(name: str) -> None:
    assert taken([f"Time (s),{name}", "0,21.5"]).columns[0].unit is None
    problem = refused([f"Time (s),{name}", "0,21.5"], Hints(columns={name: "temperature"}))
    assert problem.settles[0] == f'--unit "{name}=degC"'


def test_a_unit_in_the_cell() -> None:
    file = taken(["Time (s),T", "0,21.5 °C", "10,21.7 °C"])
    assert (values(file, "T"), file.column("T").unit is not None) == (["21.5", "21.7"], True)
    assert refused(["Time (s),T", "0,21.5 °C", "10,21.7"]).line == 2


def test_units_that_contradict_are_refused() -> None:
    assert refused([HEAD, ",degF,", "0,21.5,30.1"]).line == 1
    problem = refused([HEAD, "0,21.5,30.1"], Hints(units={"T [°C]": "degF"}))
    assert "'degC'" in problem.what
    assert "'degF'" in problem.what


def test_a_unit_that_changes_inside_a_column_is_converted_row_by_row_and_told() -> None:
    file = taken(["Time (s),Value,Unit", "0,21.0,C", "10,70.7,F", "20,21.6,C"])
    assert values(file, "Value") == ["21.0", "21.500", "21.6"]
    assert [(each.kind, each.lines, each.texts) for each in file.warnings] == [
        ("unit changes", (3,), ("degC", "degF"))
    ]


def test_whole_tenths_are_read_by_the_hint() -> None:
    rows = ["Time (s),T", "0,213", "10,-5"]
    assert values(taken(rows, Hints(units={"T": "0.1 degC"})), "T") == ["21.3", "-0.5"]
    assert refused([*rows, "20,21.5"], Hints(units={"T": "0.1 degC"})).line == 4


def test_one_room_in_two_units_agrees() -> None:
    file = taken(["Time (s),A (C),B (F)", "0,21.0,69.8"])
    celsius, fahrenheit = file.columns
    assert celsius.unit is not None
    assert fahrenheit.unit is not None
    assert fahrenheit.unit.to_si(69.8) == pytest.approx(celsius.unit.to_si(21.0), abs=1e-9)
    assert [each.kind for each in file.warnings] == ["different units"]


# 4.9: rows of events


def test_a_reading_in_the_row_of_an_event_is_kept() -> None:
    file = read("09")
    assert values(file, file.columns[0].name)[0] == "20.17"
    assert file.events[0].has_reading
    assert file.events[1].elapsed_s == 2220


# 4.10: one row a reading, several rates

LONG = [
    "Time (s),Channel,Value,Unit",
    *("0,TC1,21.0,C", "0,NA,30.1,A", "5,NA,30.2,A", "10,TC1,22.0,C", "10,NA,30.3,A", "15,NA,30.4,A"),
]


def test_each_channel_is_its_own_series_joined_where_times_agree() -> None:
    file = taken(LONG, Hints(by="Channel", columns={"TC1": "temperature", "NA": "current"}))
    assert seconds(file) == ["0", "5", "10", "15"]
    assert values(file, "TC1") == ["21.0", None, "22.0", None]
    assert values(file, "NA") == ["30.1", "30.2", "30.3", "30.4"]
    assert [each.mapped for each in file.columns] == ["temperature", "current"]
    assert [each.unit and each.unit.typed for each in file.columns] == ["degC", "A"]


def test_rows_of_several_channels_are_not_taken_for_one_series() -> None:
    problem = refused(LONG)
    assert problem.line in {2, 3}


def test_a_channel_that_is_not_there_is_refused_with_those_that_are() -> None:
    problem = refused(LONG, Hints(by="Channel", columns={"TC9": "temperature"}))
    assert "TC1, NA" in problem.what


def test_channels_may_stand_one_after_another() -> None:
    rows = sorted(LONG[1:], key=lambda line: line.split(",")[1])
    file = taken([LONG[0], *rows], Hints(by="Channel"))
    assert values(file, "TC1") == ["21.0", None, "22.0", None]


# 4.12: a spreadsheet in the middle


def test_stamps_that_lost_their_seconds_are_told() -> None:
    assert "repeated stamps" in {each.kind for each in read("08").warnings}
    rows = [
        "Interval,90 s",
        "Time;T [°C]".replace(";", ","),
        *(f"2026-02-14 {at},20.1" for at in ("9:55", "9:56", "9:58")),
    ]
    file = taken(rows)
    assert seconds(file) == ["0", "90", "180"]


# 4.13: words that other readers take for missing


def test_a_channel_called_na_and_words_that_are_no_numbers() -> None:
    file = taken(["Time (s),NA (V),None (V)", "0,1.5,nan", "10,None,2.5", "20,,2.5", "30,1.6,NaN"])
    assert [each.name for each in file.columns] == ["NA (V)", "None (V)"]
    assert values(file, "NA (V)") == ["1.5", None, None, "1.6"]
    assert [(each.line, each.column, each.token) for each in file.not_readings] == [
        (2, "None (V)", "nan"),
        (3, "NA (V)", "None"),
        (4, "NA (V)", ""),
        (5, "None (V)", "NaN"),
    ]


# beyond: what is cut off, hostile or no text


@pytest.mark.parametrize("last", ["20,21.9,30.", "20,21.9,30", "20,21.9", "20", "20,21.9,3"])
def test_a_last_row_cut_off_is_left_out_and_told(last: str) -> None:
    rows = [HEAD, "0,21.5,30.15", "10,21.7,30.05", "11,21.7,30.05", "12,21.7,30.05", ""]
    file = taken("\n".join(rows) + last)
    assert file.lines == (2, 3, 4, 5)
    assert ("row cut off", (6,)) in [(each.kind, each.lines) for each in file.warnings]
    assert file.ignored_lines == (6,)


def test_a_last_row_that_is_whole_is_kept_without_a_line_end() -> None:
    rows = [HEAD, "0,21.5,30.15", "10,21.7,30.05", "20,21.7,30.05", "30,21.7,30.05"]
    assert len(taken("\n".join(rows)).lines) == 4


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "empty"),
        (b"\0" * 1000, "empty"),
        (b"Time (s),T (C)\n0,21\0.5\n", "null bytes"),
        (b"\xd0\xcf\x11\xe0" + b"x" * 600, "old kind"),
        (b"PK\x03\x04" + b"x" * 600, "damaged"),
        (b"\x1f\x8b" + b"x" * 600, "packed"),
        (b"%PDF-1.7\n", "PDF"),
        (b"Time (s),T (C)\n", "no table"),
        (b"hello", "no table"),
        (b'Time (s),T (C)\n0,"21.5\n10,21.5\n20,3\n', "quote"),
        (b"Time (s),T (C)\n0," + b'"' + b"9" * 200_000 + b'"\n', "longer than any reading"),
        (b"Time (s),T (C)\n0,21\x075\n", "U+0007"),
    ],
)
def test_what_is_no_table_is_refused_in_plain_words(data: bytes, told: str) -> None:
    with pytest.raises(Unreadable) as caught:
        read_meter_file(data, "x", Hints())
    assert told in caught.value.problems[0].what


def test_a_file_larger_than_any_of_readings_is_refused() -> None:
    with pytest.raises(Unreadable, match="larger than 40 MB"):
        read_meter_file(b"1" * 40_000_001, "x", Hints())


def test_an_unknown_zone_unit_or_encoding_is_refused() -> None:
    rows = ["Time;T [°C]", "2026-02-14 10:00:00;20.1"]
    assert "no zone" in refused(rows, Hints(zone="Mars/Base")).what
    assert "no encoding" in refused(rows, Hints(encoding="klingon")).what
    assert "no unit" in refused(rows, Hints(units={"T [°C]": "degX"})).what


def test_a_fixed_offset_by_hint_is_kept_with_the_first_reading() -> None:
    first = taken(["Time;T [°C]", "2026-02-14 10:00:00;20.1"], Hints(zone="+05:30")).time.first
    assert first == datetime(2026, 2, 14, 10, tzinfo=timezone(timedelta(hours=5, minutes=30)))
