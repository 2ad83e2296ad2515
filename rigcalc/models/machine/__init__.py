"""What the machine does: grip, balance, engine and the point where they meet; limits; how sure. It knows no question.

`kernel.py` solves for slip by numbers alone, `grip.py` adds up running gear for it, `operating_point.py` goes the whole chain.
`limits.py` gives every limit as a share used, `sure.py` carries the doubt through, `curves.py` makes what pictures show.
"""
