"""A browser that is asked for a file piece by piece."""

from typing import Any

from rigcalc.widgets.picked import PIECE


class Browser:
    """Answers a card's asks for pieces as a browser would."""

    def __init__(self, card: Any):
        self.card = card
        self.asked: list[tuple[str, int, int]] = []
        card.fetch = lambda *asked: self.asked.append(asked)

    def pick(self, name: str, data: bytes, at_most: int = 1000) -> None:
        """Pick a file and send at most so many pieces of it."""
        self.card.act("pick", {"name": name, "size": len(data)})
        for _ in range(at_most):
            if not self.asked:
                return
            act, start, end = self.asked.pop(0)
            assert end - start <= PIECE
            self.card.take_piece(act, start, data[start:end])
