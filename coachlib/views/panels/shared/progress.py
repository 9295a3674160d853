"""A bar that shows how far a long computation is, with the count in words beside it."""

import ipywidgets as W


class ProgressBar(W.HBox):
    """A bar to hand to whatever tells its progress: ``look_through(…, progress=bar.step)``.

    Parameters
    ----------
    label : str
        What is being done; it stands before the bar and names it for a screen reader.
    """

    def __init__(self, label: str) -> None:
        self.bar = W.IntProgress(0, 0, 1, description=label, style={"description_width": "initial"})
        self.words = W.Label("not begun")
        super().__init__([self.bar, self.words])

    def step(self, n_done: int, n_all: int) -> None:
        """Show that so many of so many are done."""
        self.bar.max, self.bar.value = n_all, n_done
        self.words.value = f"{n_done} of {n_all}" if n_done < n_all else f"all {n_all} done"
