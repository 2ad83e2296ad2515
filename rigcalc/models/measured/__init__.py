"""How good is it? Every measured draft, fuel, power ratio and efficiency at hand beside what the answer's own code says."""

from rigcalc.models.measured.compare import Compared, compared
from rigcalc.models.measured.score import Score, score

__all__ = ["Compared", "Score", "compared", "score"]
