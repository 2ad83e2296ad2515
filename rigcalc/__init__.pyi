"""What `rigcalc` offers at its top, for type checkers and for the lazy loader: each name is loaded when first asked for."""

from .core.equation import Equation as Equation
from .core.errors import InputError as InputError
from .core.errors import OutsideRange as OutsideRange
from .core.tables import table as table
from .core.units import Q as Q
from .core.working import working as working
from .equations import find as find
from .equations import load_all as load_all
from .equations import solve_for as solve_for
from .models.ballast import ballast as ballast
from .models.compare.answer import compare as compare
from .models.ground.answer import ground as ground
from .models.machine.operating_point import operating_point as operating_point
from .models.passes.answer import field as field
from .models.rig.file import demo_rig as demo_rig
from .models.rig.file import load_rig as load_rig
from .models.rig.file import read_rig as read_rig
from .models.rig.file import rig_text as rig_text
from .models.rig.rig import Rig as Rig
from .models.season.answer import season as season
from .models.shortlist.answer import shortlist as shortlist
from .models.size.answer import size as size
from .words import in_words as in_words

__version__: str
