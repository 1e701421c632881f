"""The job file: its shape, its arithmetic, its mistakes told all at once, and rewriting that keeps comments."""

from fitwright.job.loading import load_job, parse_job
from fitwright.job.mistakes import JobFileError, Mistake
from fitwright.job.model import Job
from fitwright.job.rewriting import JobFile
from fitwright.job.shape import job_schema
from fitwright.job.starting import Starter, new_job, starters

__all__ = [
    "Job",
    "JobFile",
    "JobFileError",
    "Mistake",
    "Starter",
    "job_schema",
    "load_job",
    "new_job",
    "parse_job",
    "starters",
]
