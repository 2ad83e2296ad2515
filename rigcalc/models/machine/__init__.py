"""What the machine does: grip, balance, engine and the point where they meet; limits; how sure. It knows no question.

`chain.py` goes the whole way from draft to fuel, a step a name, over large arrays by `blocks.py`; `operating_point.py` is its
front door. `statics.py` holds the moment balance, `grip.py` adds up running gear, the kernels solve for slip by numbers alone,
`engine.py` goes back to the engine. `limits.py` gives every limit as a share used, `ranges.py` and `sure.py` carry the doubt
through, `seeking.py` finds where something stops holding, `curves.py` makes what pictures show. `case.py` is what a question
starts from. `wetness.py` says how wet the ground is by what was read, `weather.py` reads a file of daily weather,
`water.py` runs it through bare ground.
"""
