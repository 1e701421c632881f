"""`python -m fitwright`."""

from fitwright.cli import main

main()
