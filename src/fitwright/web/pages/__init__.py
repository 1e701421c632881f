"""The pages of the workbench, a folder each: its calls in `__init__.py`, its templates beside them."""
