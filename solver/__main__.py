"""Run ``hardpan`` as ``python -m solver``."""

from solver.cli import run

if __name__ == "__main__":
    run()
