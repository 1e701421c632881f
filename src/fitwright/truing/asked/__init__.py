"""Where each kind of reading is taken, and what it would be as drawn."""
