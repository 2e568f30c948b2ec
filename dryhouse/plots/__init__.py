"""Pictures: each a function (Figure, result, tokens) -> None, with no Qt in it."""
