"""`python -m rigcalc`: the same as the command `rigcalc`."""

from rigcalc.cli.main import main

if __name__ == "__main__":
    main()
