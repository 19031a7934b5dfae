"""`datapackage.json` keeps the rules of the Data Package standard, and pandas reads the tables by it.

The rules are those of the standard's published profiles, datapackage.org/profiles/2.0: datapackage.json,
dataresource.json, tableschema.json (2024), as far as they speak of what is written here.
"""

from __future__ import annotations

import io
import json
import re
from collections.abc import Mapping
from datetime import datetime
from hashlib import sha256
from typing import Any

import pandas as pd
import pytest

from generator.pages.data_package import Field, resources
from generator.records.units import UNITS
from tests.history.benches import demo, published
from tests.history.parcel.parcels import files_of

REPORTS = ("fuse-holders-30a", "panel-sockets-12v", "ring-terminals-m6")
TYPES = {"string", "number", "integer", "date"}
PANDAS = {"string": "string", "number": "float64", "integer": "Int64", "date": "string"}


@pytest.fixture(scope="module")
def parcels(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, bytes]]:
    """The first editions of the demo's reports."""
    folder = demo(tmp_path_factory.mktemp("packages") / "b")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        for report in REPORTS:
            assert published(report, "--date", "2026-11-20").exit_code == 0
    return {report: files_of(folder, report) for report in REPORTS}


@pytest.fixture(params=REPORTS)
def files(parcels: dict[str, dict[str, bytes]], request: pytest.FixtureRequest) -> Mapping[str, bytes]:
    """The files of one of them."""
    return parcels[request.param]


def package_of(files: Mapping[str, bytes]) -> dict[str, Any]:
    found = json.loads(files["datapackage.json"])
    assert isinstance(found, dict)
    return found


def test_it_says_what_the_standard_asks_of_a_package(files: Mapping[str, bytes]) -> None:
    package = package_of(files)
    assert package["$schema"] == "https://datapackage.org/profiles/2.0/datapackage.json"
    assert re.fullmatch(r"[-a-z0-9._/]+", package["name"])
    assert all(isinstance(package[key], str) for key in ("title", "description", "version"))
    assert datetime.fromisoformat(package["created"]).isoformat() == "2026-11-20T00:00:00+00:00"
    assert package["version"] == "1"
    assert package["homepage"].startswith("https://")
    assert [set(each) for each in package["contributors"]] == [{"title", "email", "roles"}]
    assert [set(each) for each in package["sources"]] == [{"title", "path"}]
    assert package["sources"][0]["path"] in files
    assert len(package["resources"]) >= 1
    assert package["licenses"] == [
        {
            "name": "CC-BY-4.0",
            "path": "https://creativecommons.org/licenses/by/4.0/",
            "title": "Creative Commons Attribution 4.0 International",
        }
    ]


def test_it_says_what_the_standard_asks_of_a_resource(files: Mapping[str, bytes]) -> None:
    found = package_of(files)["resources"]
    assert {each["path"] for each in found} == {name for name in files if name.startswith("data/")}
    assert len({each["name"] for each in found}) == len(found)
    for each in found:
        assert re.fullmatch(r"[-a-z0-9._/]+", each["name"])
        # A path of the standard is relative, with `/`, and leads nowhere up.
        assert re.fullmatch(r"(?!\.\.)(?!/)[^\\:]+", each["path"])
        content = files[each["path"]]
        assert each["bytes"] == len(content)
        assert each["hash"] == f"sha256:{sha256(content).hexdigest()}"
        assert (each["type"], each["format"], each["mediatype"], each["encoding"]) == (
            "table",
            "csv",
            "text/csv",
            "utf-8",
        )
        assert each["schema"]["missingValues"] == [""]


def test_every_column_is_a_field_with_its_type_and_its_unit(files: Mapping[str, bytes]) -> None:
    known = {unit for each in UNITS for unit in (each.symbol, each.typed)}
    for each in package_of(files)["resources"]:
        fields = each["schema"]["fields"]
        heads = files[each["path"]].decode().split("\r\n")[0]
        names = [field["name"] for field in fields]
        assert names == list(pd.read_csv(io.StringIO(heads)).columns)
        assert len(set(names)) == len(names)
        for field in fields:
            assert set(field) <= {"name", "type", "unit", "description"}
            assert field["type"] in TYPES
            assert field.get("unit", "K") in known
            assert ("unit" in field) <= ("description" in field)
        assert {field["name"] for field in fields if field["type"] == "date"} <= {
            "date",
            "day",
            "day of the rate",
        }


def test_pandas_reads_the_tables_with_these_types(files: Mapping[str, bytes]) -> None:
    for each in package_of(files)["resources"]:
        types = {field["name"]: PANDAS[field["type"]] for field in each["schema"]["fields"]}
        dates = [
            name
            for name, field in zip(types, each["schema"]["fields"], strict=True)
            if field["type"] == "date"
        ]
        table = pd.read_csv(
            io.BytesIO(files[each["path"]]), dtype=types, na_values=[""], keep_default_na=False
        )
        assert len(table) > 0
        for name in dates:
            read = pd.to_datetime(table[name], format="%Y-%m-%d")
            assert read.notna().equals(table[name].notna())


def test_figures_are_numbers_in_the_unit_of_their_row(parcels: dict[str, dict[str, bytes]]) -> None:
    found = package_of(parcels["fuse-holders-30a"])["resources"]
    fields = {(each["name"], field["name"]): field for each in found for field in each["schema"]["fields"]}
    assert fields["results", "value"]["type"] == "number"
    assert fields["results", "value"]["description"] == "in the unit that the column “unit” names"
    assert "US unit" in fields["results", "value, in the US unit"]["description"]
    assert fields["readings", "rise (K)"]["unit"] == "K"
    assert fields["readings", "temperature@body degC"] == {
        "name": "temperature@body degC",
        "type": "number",
        "unit": "degC",
        "description": "in degC",
    }
    assert fields["results", "pieces"]["type"] == "integer"
    assert fields["prices", "pieces"]["type"] == "string"
    assert "“currency”" in fields["prices", "paid"]["description"]
    assert fields["readings", "piece"]["type"] == "string"


def test_a_column_with_a_bound_in_it_is_one_of_texts() -> None:
    heads = b"run,date,item,piece,method,ambient degC,drop mV,air (\xc2\xb0C)\r\n"
    content = heads + b"x/a,2026-01-01,a,1,m,20.1,>150.0,20.1\r\nx/a,2026-01-01,a,1,m,,3.2,20.1\r\n"
    (table,) = resources({"data/readings.csv": content})
    assert table.fields == (
        Field("run", "string"),
        Field("date", "date"),
        Field("item", "string"),
        Field("piece", "string"),
        Field("method", "string"),
        Field("ambient degC", "number", "degC"),
        Field("drop mV", "string", "mV"),
        Field("air (°C)", "number", "°C"),
    )


NAMES = {"run", "item", "piece", "stock", "method", "measure", "pieces", "piece apart", "other item"}
"""Columns of texts that may look like numbers: ids and letters of pieces."""


def test_no_column_of_numbers_is_one_of_texts(files: Mapping[str, bytes]) -> None:
    for each in package_of(files)["resources"]:
        table = pd.read_csv(io.BytesIO(files[each["path"]]))
        for field in each["schema"]["fields"]:
            column = table[field["name"]]
            numeric = column.notna().any() and pd.api.types.is_numeric_dtype(column)
            assert field["type"] != "string" or not numeric or field["name"] in NAMES, field["name"]
