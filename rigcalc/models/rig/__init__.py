"""The yard: what a rig file holds and may hold, its faults in words, the demo rigs, and the rig as bare numbers.

`rig.py` and `parts.py` are the schema, `measure.py` one entry of it, `file.py` reading and writing, `faults.py` every fault at
once. `running_gear.py` says what tyres and tracks are and carry. `bare.py` looks up every coefficient and leaves plain numbers.
"""
