"""What soil is it? USDA texture class from sand and clay, and the depth past which a point stops lifting soil."""

from __future__ import annotations

from typing import Any

import numpy as np

from rigcalc.core.equation import equation
from rigcalc.core.nomenclature import S


def class_tests(sand: Any, clay: Any, silt: Any) -> list[tuple[str, Any]]:
    """Give (name of the class, whether the manual's sentence for it holds); of the sentences exactly one holds anywhere."""
    return [
        ("no class", (silt < 0) | np.isnan(silt)),
        ("sand", (sand > 85) & (silt + 1.5 * clay < 15)),
        ("loamy sand", (sand >= 70) & (sand <= 91) & (silt + 1.5 * clay >= 15) & (silt + 2 * clay < 30)),
        ("sandy loam", ((clay >= 7) & (clay < 20) & (sand > 52) & (silt + 2 * clay >= 30))
         | ((clay < 7) & (silt < 50) & (silt + 2 * clay >= 30))),
        ("loam", (clay >= 7) & (clay < 27) & (silt >= 28) & (silt < 50) & (sand <= 52)),
        ("silt loam", ((silt >= 50) & (clay >= 12) & (clay < 27)) | ((silt >= 50) & (silt < 80) & (clay < 12))),
        ("silt", (silt >= 80) & (clay < 12)),
        ("sandy clay loam", (clay >= 20) & (clay < 35) & (silt < 28) & (sand > 45)),
        ("clay loam", (clay >= 27) & (clay < 40) & (sand > 20) & (sand <= 45)),
        ("silty clay loam", (clay >= 27) & (clay < 40) & (sand <= 20)),
        ("sandy clay", (clay >= 35) & (sand > 45)),
        ("silty clay", (clay >= 40) & (silt >= 40)),
        ("clay", (clay >= 40) & (sand <= 45) & (silt < 40)),
    ]  # fmt: skip


@equation(
    gives=S.texture,
    takes=(S.sand, S.clay),
    source="soil_survey_manual",
    where="2017, p. 122",
    sure="restated",
    traced=False,
    numeric=True,
)
def texture_class(sand, clay):
    """USDA texture class from the shares of sand and clay; silt is the rest.

    Gives a word, or an array of words where arrays go in. "no class" where sand and clay pass 100 percent.
    """
    sand, clay = np.broadcast_arrays(np.asarray(sand, float), np.asarray(clay, float))
    # Rounding to 1e-9 percent keeps a point that lies on a boundary on it, whatever unit it was typed in.
    sand, clay = np.round(sand, 9), np.round(clay, 9)
    silt = np.round(100 - sand - clay, 9)
    classes = class_tests(sand, clay, silt)
    named = np.select([test for _, test in classes], [name for name, _ in classes], default="no class")
    return named if named.ndim else str(named)


@equation(
    gives=S.critical_depth,
    takes=(S.aspect_ratio_critical, S.point_width),
    source="bc_soil_handbook",
    where="sect. 4.3.1",
    sure="restated",
    valid={"aspect_ratio_critical": (5, 7)},
)
def critical_depth(aspect_ratio_critical, point_width):
    """Depth below which a narrow point squeezes the soil sideways and loosens no more of it."""
    return aspect_ratio_critical * point_width
