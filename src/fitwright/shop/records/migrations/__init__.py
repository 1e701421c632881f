"""How the tables came about, one step a version; run by themselves when records are opened."""
