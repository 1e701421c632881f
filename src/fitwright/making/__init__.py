"""One folder a trade: each turns the piece into what that trade needs at its machine."""
