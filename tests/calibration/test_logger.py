"""Logger files as they come, and every fault told with its line. All readings are invented."""

from datetime import datetime, timedelta

import numpy as np
import pytest

from pourwright.calibration.logger import read_logger
from pourwright.calibration.logger_faults import in_kelvin
from pourwright.foundation.errors import UserError

BEGIN = datetime(2026, 12, 1, 9)
ROWS = 30
WARMING = [23.0 + 0.5 * i for i in range(ROWS)]


def rows(stamp: str, separator: str = ",", decimal: str = ".", *, air: bool = False, values=WARMING) -> str:
    """One row a minute."""
    lines = []
    for i, value in enumerate(values):
        cells = [(BEGIN + timedelta(minutes=i)).strftime(stamp), f"{value:.1f}", *["21.5"] * air]
        lines.append(separator.join([cells[0], *[cell.replace(".", decimal) for cell in cells[1:]]]))
    return "\n".join(lines) + "\n"


def written(tmp_path, text: str, encoding: str = "utf8"):
    path = tmp_path / "cup.csv"
    path.write_bytes(text.encode(encoding))
    return path


GOOD = {
    "iso": ("time,cup °C\n" + rows("%Y-%m-%d %H:%M:%S"), "degC"),
    "iso with zone": ("time,cup degC\n" + rows("%Y-%m-%dT%H:%M:%SZ"), "degC"),
    "semicolons and decimal commas": ("Zeit;Temp [°C]\n" + rows("%d.%m.%Y %H:%M", ";", ","), "degC"),
    "twelve hours": ("Date,Temp(°F)\n" + rows("%m/%d/%Y %I:%M:%S %p"), "degF"),
    "tabs": ("time\tTemperature (Celsius)\n" + rows("%Y-%m-%d %H:%M:%S", "\t"), "degC"),
    "date and time apart": ("Date,Time,T (°C)\n" + rows("%m/%d/%Y,%H:%M:%S"), "degC"),
    "preamble": ("Logger 7\nSerial;123\n\ntime;T °C\n" + rows("%Y-%m-%d %H:%M:%S", ";"), "degC"),
    "no title": (rows("%Y-%m-%d %H:%M:%S"), None),
    "counted minutes": (
        "Elapsed (min),T °C\n" + "".join(f"{i},{v}\n" for i, v in enumerate(WARMING)), "degC",
    ),
    "hours and minutes": (
        "t,T °C\n" + "".join(f"{i // 60:02d}:{i % 60:02d}:00,{v}\n" for i, v in enumerate(WARMING)), "degC",
    ),
    "seconds since 1970": ("".join(f"{1796115600 + 60 * i},{v}\n" for i, v in enumerate(WARMING)), None),
    "numbered rows": (
        "No.,Time,T °C\n" + "".join(
            f"{i + 1},{BEGIN + timedelta(minutes=i)},{v}\n" for i, v in enumerate(WARMING)
        ), "degC",
    ),
    "quoted": ('"time","cup °C"\n' + "".join(
        f'"{BEGIN + timedelta(minutes=i)}","{v}"\n' for i, v in enumerate(WARMING)
    ), "degC"),
}  # fmt: skip


@pytest.mark.parametrize("name", GOOD)
@pytest.mark.parametrize("encoding", ["utf-8-sig", "latin-1", "utf-16"])
def test_usual_files_are_read(tmp_path, name, encoding):
    text, unit = GOOD[name]
    found = read_logger(written(tmp_path, text, encoding))
    assert found.time == pytest.approx(60.0 * np.arange(ROWS))
    assert found.cup == pytest.approx(WARMING)
    assert found.unit == unit


@pytest.mark.parametrize("title", ["time,cup °C,air °C", "time,Air °C,Cup °C", ",,"])
def test_a_second_column_is_the_air(tmp_path, title):
    swapped = title.startswith("time,Air")
    found = read_logger(written(tmp_path, title + "\n" + rows("%Y-%m-%d %H:%M:%S", air=True)))
    cup, air = (found.air, found.cup) if swapped else (found.cup, found.air)
    assert cup == pytest.approx(WARMING)
    assert air == pytest.approx(21.5)


def test_gaps_stay_gaps(tmp_path):
    text = rows("%Y-%m-%d %H:%M:%S").replace("24.0", "---").replace("25.0", "")
    found = read_logger(written(tmp_path, text))
    assert list(np.flatnonzero(np.isnan(found.cup))) == [2, 4]


def test_a_last_row_cut_short_is_left_out(tmp_path):
    found = read_logger(written(tmp_path, rows("%Y-%m-%d %H:%M:%S") + "2026-12-01 10:0"))
    assert found.time.size == ROWS


ISO = rows("%Y-%m-%d %H:%M:%S")
BAD = {
    "empty": ("", "cup.csv: is empty"),
    "blank": ("\n\n", "cup.csv: is empty"),
    "one row": ("2026-12-01 09:00,23\n", "cup.csv:1: holds 1 row of readings"),
    "words": ("hello\nworld\n", "holds no row with a time and a temperature"),
    "backwards": (ISO + "2026-12-01 09:00:00,22\n", f"cup.csv:{ROWS + 1}: time goes back"),
    "two clocks": (ISO + "35,22\n36,22\n", f"cup.csv:{ROWS + 1}: '35' is another kind of time"),
    "no number": (ISO + "2026-12-01 10:00:00,hot\n", f"cup.csv:{ROWS + 1}: 'hot' is no temperature"),
    "columns": (
        ISO + "2026-12-01 10:00:00\n2026-12-01 10:01:00,24\n", f"cup.csv:{ROWS + 1}: a row of 1 columns",
    ),
}  # fmt: skip


HOSTILE = {
    "binary": bytes(range(256)) * 20,
    "zeros": b"time,T\n" + b"\x00" * 50,
    "one endless cell": ISO.encode() + b'"' + b"x1" * 200_000,
    "no such day": ISO.replace("2026-12-01", "2026-02-30").encode(),
    "all the same time": b"".join(b"2026-12-01 09:00:00,23\n" for _ in range(ROWS)),
    "nothing but gaps": b"".join(b"2026-12-01 09:%02d:00,nan\n" % i for i in range(ROWS)),
    "endless numbers": ISO.replace("23.0", "1e400").encode(),
    "another alphabet of digits": ISO.replace("24.0", "\uff12\uff13 x").encode(),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_files_are_refused_in_one_line(tmp_path, name):
    path = tmp_path / "cup.csv"
    path.write_bytes(HOSTILE[name])
    with pytest.raises(UserError) as refused:
        in_kelvin(read_logger(path), "degC", None, None)
    assert "cup.csv" in str(refused.value)
    assert "\n" not in str(refused.value)


def test_a_quote_that_is_never_closed_costs_no_rows(tmp_path):
    text = ISO.replace("2026-12-01 09:05:00", '"2026-12-01 09:05:00')
    assert read_logger(written(tmp_path, text)).time.size == ROWS


@pytest.mark.parametrize("name", BAD)
def test_bad_files_are_refused_with_their_line(tmp_path, name):
    text, message = BAD[name]
    with pytest.raises(UserError) as refused:
        read_logger(written(tmp_path, text))
    assert message in str(refused.value)
    assert "\n" not in str(refused.value)


def test_day_and_month_are_asked_for_only_where_it_matters(tmp_path):
    text = "".join(f"0{1 + i // 24}/02/2026 {i % 24:02d}:00,23.{i % 10}\n" for i in range(48))
    path = written(tmp_path, text)
    with pytest.raises(UserError, match="day first, month first"):
        read_logger(path)
    assert read_logger(path, dates="day first").time[-1] == 47 * 3600
    assert read_logger(path, dates="month first").time[-1] == 31 * 86400 + 23 * 3600
    within_a_day = "".join(f"01/02/2026 {i:02d}:00,23.0\n" for i in range(24))
    assert read_logger(written(tmp_path, within_a_day)).time[-1] == 23 * 3600


def checked(tmp_path, text, unit="degC", room=296.15, start=None):
    return in_kelvin(read_logger(written(tmp_path, text)), unit, room, start)


def test_the_unit_is_never_guessed(tmp_path):
    with pytest.raises(UserError, match="does not say whether") as refused:
        checked(tmp_path, ISO, unit=None)
    assert "degC, degF" in str(refused.value)
    assert checked(tmp_path, ISO).cup[0] == pytest.approx(296.15)


def test_a_unit_against_the_title_is_refused(tmp_path):
    with pytest.raises(UserError, match="the file says degC, you say degF"):
        checked(tmp_path, "time,T °C\n" + ISO, unit="degF")


@pytest.mark.parametrize(
    ("unit", "offset", "other"),
    [("degC", 50.0, "degF"), ("degF", 0.0, "degC")],
    ids=["degF taken for degC", "reverse"],
)
def test_a_mistaken_unit_is_noticed_and_asked_about(tmp_path, unit, offset, other):
    text = rows("%Y-%m-%d %H:%M:%S", values=[value + offset for value in WARMING])
    with pytest.raises(UserError, match=f'if it is in {other}, write unit = "{other}"') as refused:
        checked(tmp_path, text, unit=unit)
    assert "cup.csv:1: the mix begins at" in str(refused.value)
    # whoever says that the mix was so warm is believed
    assert checked(tmp_path, text, unit=unit, start=346.15).time.size == ROWS


def test_a_sensor_that_fell_out_is_noticed(tmp_path):
    values = [*WARMING, *[60.0] * 5, *[22.0] * 10]
    with pytest.raises(UserError, match=r"falls by 38 K .* the sensor fell out") as refused:
        checked(tmp_path, rows("%Y-%m-%d %H:%M:%S", values=values))
    assert f"cup.csv:{ROWS + 6}:" in str(refused.value)


@pytest.mark.parametrize("broken", [-200.0, 999.0])
def test_a_broken_sensor_is_noticed(tmp_path, broken):
    values = [*WARMING, broken, 40.0]
    with pytest.raises(UserError, match=f"cup.csv:{ROWS + 1}: .* broken or not plugged in"):
        checked(tmp_path, rows("%Y-%m-%d %H:%M:%S", values=values))


def test_a_clock_that_jumps_is_noticed(tmp_path):
    with pytest.raises(UserError, match=f"cup.csv:{ROWS + 1}: the clock jumps ahead"):
        checked(tmp_path, ISO + "2027-01-01 09:00:00,23.0\n")


def test_a_long_record(tmp_path):
    count = 200_000
    text = "elapsed s,cup °C\n" + "".join(f"{i},{23 + i % 7}\n" for i in range(count))
    found = read_logger(written(tmp_path, text))
    assert found.time.size == count
    assert found.cup[-1] == 23 + (count - 1) % 7
