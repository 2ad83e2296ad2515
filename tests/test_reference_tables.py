"""The published tables and checks as files: each is complete, unique, in known units, and names a known source."""

import csv
import re
import tomllib
from pathlib import Path
from urllib.parse import urlsplit

import pytest

ROOT = Path(__file__).parents[1]
TABLES = sorted((ROOT / "reference_tables").glob("*.csv"))
SIDECARS = sorted(path for path in (ROOT / "reference_tables").glob("*.toml") if path.stem != "sources")
_CHECKS = sorted((ROOT / "tests" / "published").glob("*.toml"))
MEASURED = [path for path in _CHECKS if path.stem.startswith("measured_")]
PUBLISHED = [path for path in _CHECKS if path not in MEASURED]
SOURCES = tomllib.loads((ROOT / "reference_tables" / "sources.toml").read_text(encoding="utf-8"))

SURE = {"read in print", "restated", "from memory", "common practice", "computed"}
UNITS = set(
    "m cm mm km in ft mi acre ha L gal kg g t lb ton N kN lbf kPa Pa MPa psi bar kW W hp h min s day mph percent "
    "deg rad rpm degC degF delta_degC".split()
)
QUANTITY = re.compile(r"-?\d+(\.\d+)?( \S+)?")

# Addresses of makers and sellers name brands and are left out of sources.toml. Every host here was looked at:
# none belongs to a maker, a dealer or a supplier. Look at a new one before it is added.
CHECKED_HOSTS = set(
    """
    acnpsearch.tweb-dev.unibo.it c.coek.info ijbse.ut.ac.ir grainews.ca ijpsat.es
    askfilo.com saranextgen.com todaystractors.com journals.tubitak.gov.tr
    abetutorials.blogspot.com abetutorials.com agenglectures.blogspot.com agrarninauki.au-plovdiv.bg
    agricultureportal.co.za amsincorporated.net bigfrog104.com bonnerboundary811.org cales.arizona.edu ccsenet.org
    cdquestions.com conservationdigest.com cropwatch.unl.edu digitalcommons.unl.edu docslib.org
    ecoursesonline.iasri.res.in equipmentworld.com exam.pscnotes.com extension.iastate.edu extension.missouri.edu
    extension.umaine.edu extension2.missouri.edu farm-equipment.com farmanddairy.com farmdoc.illinois.edu farmindustrynews.com
    freethesaurus.com growingproduce.com hobbyfarms.com independent.ie
    ja.scribd.com kansasfarmer.com mathix.co
    muthjas.com nrcs.usda.gov okie811.org oneplan.org progressivedairy.com
    progressiveforage.com progressivegardening.com publications.ehs.iastate.edu qna.carrieradda.com rdrr.io
    safetyandhealthmagazine.com scribd.com slashgear.com studylib.net studymode.com tractorspedia.com
    tradefarmmachinery.com.au trailermedic.co.uk windot.com yumpu.com
    engineersedge.com goobi.tib.eu sciemce.com transtutors.com
    cotton.org experts.nebraska.edu vdocuments.us
    cdc.gov ecfr.io nasdonline.org safeelectricity.org southwestfarmpress.com
    """.split()
)


def known_unit(unit):
    """Say whether a unit string is made of allowed names only."""
    return unit in ("1", "text") or set(re.findall(r"[A-Za-z_]+", unit)) <= UNITS


def read(path):
    """Give the sidecar of a table, its column names and its rows as text."""
    with path.open(newline="", encoding="utf-8") as file:
        reader = csv.DictReader(file)
        rows = list(reader)
    about = tomllib.loads(path.with_suffix(".toml").read_text(encoding="utf-8"))
    return about, reader.fieldnames, rows


def test_tables_and_sidecars_come_in_pairs():
    assert len(TABLES) > 15
    assert [path.stem for path in TABLES] == [path.stem for path in SIDECARS]


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.stem)
def test_table_is_described_and_unique(path):
    about, columns, rows = read(path)
    assert about["title"]
    assert about["says"]
    assert about["source"] in SOURCES
    assert about["sure"] in SURE
    assert list(about["columns"]) == columns, "the sidecar describes the columns in their order"
    assert all(known_unit(column["unit"]) and column["text"] for column in about["columns"].values())
    assert all(None not in row and None not in row.values() for row in rows), "a row is too long or too short"
    keys = [tuple(row[column] for column in about["key"]) for row in rows]
    assert len(set(keys)) == len(keys)
    assert all(row.get("sure", about["sure"]) in SURE for row in rows)
    assert all(row.get("source", about["source"]) in SOURCES for row in rows)
    assert all(row["also"] in SOURCES for row in rows if row.get("also"))


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.stem)
def test_table_holds_what_was_counted_and_summed(path):
    about, _, rows = read(path)
    assert len(rows) == about["check"]["rows"]
    numeric = [name for name, column in about["columns"].items() if column["unit"] != "text"]
    sums = about["check"].get("sums", {})
    assert sorted(sums) == sorted(numeric), "every numeric column has its sum"
    for name in numeric:
        cells = [float(row[name]) for row in rows if row[name]]
        assert sum(cells) == pytest.approx(sums[name], abs=1e-6), name


def test_low_ends_lie_under_high_ends():
    pairs = 0
    for path in TABLES:
        _, columns, rows = read(path)
        for low in [name for name in columns if name.endswith("low")]:
            high = low.removesuffix("low") + "high"
            assert all(float(row[low]) <= float(row[high]) for row in rows if row[low] and row[high]), path.stem
            pairs += 1
    assert pairs >= 5


def test_no_address_of_a_maker_or_seller():
    for key, source in SOURCES.items():
        assert source["title"], key
        assert "withheld" not in source["url"], key
        assert not source["url"] or urlsplit(source["url"]).hostname.removeprefix("www.") in CHECKED_HOSTS, key
        assert not (source["url"] and "withheld" in source.get("author", "")), key


def test_every_source_is_used():
    used = {about["source"] for about in (read(path)[0] for path in TABLES)}
    used |= {row["source"] for path in TABLES for row in read(path)[2] if "source" in row}
    used |= {row["also"] for path in TABLES for row in read(path)[2] if row.get("also")}
    used |= {tomllib.loads(path.read_text(encoding="utf-8"))["source"] for path in PUBLISHED}
    fitted = (ROOT / "tests" / "equations" / "test_fitted.py").read_text(encoding="utf-8")
    used |= set(re.findall(r"[Ss]ource: (\w+)", fitted))
    used |= {row["source"] for path in MEASURED for row in tomllib.loads(path.read_text(encoding="utf-8"))["row"]}
    with (ROOT / "tests" / "published" / "printed_tyre_sizes.csv").open(encoding="utf-8", newline="") as file:
        used |= {row["source"] for row in csv.DictReader(file)}
    code = "".join(path.read_text(encoding="utf-8") for path in (ROOT / "rigcalc").rglob("*.py"))
    assert [key for key in SOURCES if key not in used and f'"{key}"' not in code] == []


@pytest.mark.parametrize("path", PUBLISHED, ids=lambda path: path.stem)
def test_published_check_is_complete(path):
    check = tomllib.loads(path.read_text(encoding="utf-8"))
    assert check["source"] in SOURCES
    assert check["where"]
    assert check["equation"].isidentifier()
    assert ("tolerance" in check) != ("relative" in check)
    assert check["row"]
    for row in check["row"]:
        assert set(row) <= {"id", "given", "expect", "note", "skip"}, row["id"]
        assert row["given"]
        texts = [*row["given"].values()]
        if check["equation"] != "texture_class":
            texts.append(row["expect"])
        for text in texts:
            assert QUANTITY.fullmatch(text), text
            assert known_unit(text.partition(" ")[2] or "1"), text


def test_published_ids_are_unique_and_skips_give_a_reason():
    rows = [row for path in PUBLISHED for row in tomllib.loads(path.read_text(encoding="utf-8"))["row"]]
    ids = [row["id"] for row in rows]
    assert len(set(ids)) == len(ids)
    assert all(len(row["skip"]) > 10 for row in rows if "skip" in row)
    assert sum("skip" not in row for row in rows) >= 60


@pytest.mark.parametrize("path", MEASURED, ids=lambda path: path.stem)
def test_measured_rows_are_complete(path):
    page = tomllib.loads(path.read_text(encoding="utf-8"))
    ids = [row["id"] for row in page["row"]]
    assert len(set(ids)) == len(ids)
    for row in page["row"]:
        known = {
            "id",
            "source",
            "where",
            "given",
            "measured",
            "measured_low",
            "measured_high",
            "note",
            "skip",
            "set",
            "compare",
        }
        assert set(row) <= known, row["id"]
        assert row["source"] in SOURCES, row["id"]
        assert row["where"], row["id"]
        assert QUANTITY.fullmatch(row["measured"]), row["id"]
        assert ("skip" in row) or row["given"], row["id"]
        assert len(row.get("skip", "long enough")) > 10, row["id"]
