"""Should I, and how deep: the ground before and after the pass.

`readings.py` and `logs.py` read a probe, `layers.py` finds the layer, `depth.py` says how deep, `shanks.py` what is loosened,
`residue.py` what stays on top, `worked.py` what a pass did, `trial.py` how many strips show what it does, `axles.py`,
`strength.py` and `pressing.py` what wheels press together again; `answer.py` puts it together with the wetness, which
`models/machine/wetness.py` holds because `size` asks for it too. `by_weather.py` works it out where nobody has read it.
"""

from rigcalc.models.ground.answer import GroundAnswer, ground

__all__ = ["GroundAnswer", "ground"]
